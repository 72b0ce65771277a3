"""The help pages, put to yelp-check, and what they must say.

Usage: test-help.py SOURCE
"""

import csv
import pathlib
import re
import subprocess
import sys
import xml.etree.ElementTree as ElementTree

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent))
import tap  # noqa: E402

SOURCE = pathlib.Path(sys.argv[1])
PAGES = SOURCE / 'help' / 'C'
MALLARD = '{http://projectmallard.org/1.0/}'

# Rows of the page against rows of data/figures/seam_allowances.csv, which names the sources.
FINISHES = {
    'Pressed open': 'plain, pressed open',
    'Overlocked': 'plain, overlocked together',
    'Overlocked, topstitched': 'plain, overlocked together',
    'Zigzagged': 'plain then both edges zigzagged/overcast together',
    'French': 'French A (3/8 + 1/4 = 5/8)',
    'Flat-felled': 'flat-felled',
    'Bound': 'bound edges, pressed open',
}


def yelp_check(what):
    done = subprocess.run(['yelp-check', what, str(PAGES)], stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                          stderr=subprocess.STDOUT, text=True)
    assert done.returncode == 0 and not done.stdout.strip(), done.stdout


def check_listed():
    """A page that help/meson.build forgets is not installed."""
    listed = set(re.findall(r"'([a-z-]+\.page)'", (SOURCE / 'help/meson.build').read_text(encoding='utf-8')))
    present = {path.name for path in PAGES.glob('*.page')}
    assert listed == present, f'listed only: {sorted(listed - present)}; present only: {sorted(present - listed)}'


def finish_rows():
    page = ElementTree.parse(PAGES / 'finishes.page')
    for row in next(page.iter(MALLARD + 'tbody')):
        yield [' '.join(''.join(cell.itertext()).split()) for cell in row]


def check_finishes():
    with open(SOURCE / 'data/figures/seam_allowances.csv', encoding='utf-8', newline='') as figures:
        published = {row['seam']: row for row in csv.DictReader(figures)}
    rows = list(finish_rows())
    assert {row[0] for row in rows} == set(FINISHES), [row[0] for row in rows]
    for name, allowance, _, source in rows:
        figure = published[FINISHES[name]]
        assert float(allowance.split(' mm')[0]) == float(figure['raw_edge_allowance_mm']), f'{name}: {allowance}'
        practice = source == 'Common practice, no source'
        assert practice == (figure['status'] == 'practice'), f'{name}: {source}'
        second_hand = source.endswith('read second-hand')
        assert second_hand == (figure['status'] == 'secondary'), f'{name}: {source}'


def check_cautions():
    last = (PAGES / 'cautions.page').read_text(encoding='utf-8').rstrip().splitlines()[-2].strip()
    wanted = "<p>Usual cautions only. Your local law, workplace rules and the makers' instructions come first.</p>"
    assert last == wanted, last


if __name__ == '__main__':
    sys.exit(tap.run([
        ('every page is valid Mallard', lambda: yelp_check('validate')),
        ('every link leads somewhere', lambda: yelp_check('links')),
        ('every page can be reached', lambda: yelp_check('orphans')),
        ('every page is installed', check_listed),
        ('the table of finishes repeats the figures and says how far to trust them', check_finishes),
        ('the cautions end with whose word comes first', check_cautions),
    ]))
