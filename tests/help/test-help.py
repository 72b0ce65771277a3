"""The help pages, put to yelp-check, and what they must say.

Usage: test-help.py SOURCE
"""

import pathlib
import re
import subprocess
import sys

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent))
import tap  # noqa: E402

SOURCE = pathlib.Path(sys.argv[1])
PAGES = SOURCE / 'help' / 'C'


def yelp_check(what):
    done = subprocess.run(['yelp-check', what, str(PAGES)], stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                          stderr=subprocess.STDOUT, text=True)
    assert done.returncode == 0 and not done.stdout.strip(), done.stdout


def check_listed():
    """A page that help/meson.build forgets is not installed."""
    listed = set(re.findall(r"'([a-z-]+\.page)'", (SOURCE / 'help/meson.build').read_text(encoding='utf-8')))
    present = {path.name for path in PAGES.glob('*.page')}
    assert listed == present, f'listed only: {sorted(listed - present)}; present only: {sorted(present - listed)}'


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
        ('the cautions end with whose word comes first', check_cautions),
    ]))
