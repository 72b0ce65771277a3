"""The help pages, put to yelp-check, and what they must say.

Usage: test-help.py SOURCE
"""

import json
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
    """Allowances and how far to trust them, as in data/finishes.json."""
    shipped = json.loads((SOURCE / 'data/finishes.json').read_text(encoding='utf-8'))
    rows = list(finish_rows())
    assert [row[0] for row in rows] == [finish['name'] for finish in shipped], [row[0] for row in rows]
    for (name, allowance, _, source), finish in zip(rows, shipped):
        shown = float(allowance.split(' mm')[0])
        assert abs(shown - finish['allowance_mm']) < 0.05, f"{name}: {shown}, not {finish['allowance_mm']}"
        published = 'seen' in finish['source'] or 'secondary' in finish['source']
        assert published == (source != 'Common practice, no source'), f'{name}: {source}'
        assert ('secondary' in finish['source']) == ('second-hand' in source), f'{name}: {source}'


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
        ('the table of finishes repeats what ships and says how far to trust them', check_finishes),
        ('the cautions end with whose word comes first', check_cautions),
    ]))
