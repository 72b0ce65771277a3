"""The last line of build-aux/test must not flatter: tests/count.py against logs made by hand."""

import json
import pathlib
import subprocess
import sys
import tempfile

TESTS = pathlib.Path(__file__).resolve().parent.parent
sys.path.insert(0, str(TESTS))
import tap  # noqa: E402


def count(*tests, missing=False):
    """Last line and exit status for a log of these tests."""
    with tempfile.TemporaryDirectory() as folder:
        log = pathlib.Path(folder, 'log.json')
        log.write_text('\n'.join(json.dumps({'name': 'made up', **test}) for test in tests), encoding='utf-8')
        paths = [log] + ([pathlib.Path(folder, 'none.json')] if missing else [])
        done = subprocess.run([sys.executable, TESTS / 'count.py', *paths], stdout=subprocess.PIPE, text=True)
        return done.stdout.splitlines()[-1], done.returncode


def expect(outcome, *tests, **settings):
    found = count(*tests, **settings)
    assert found == outcome, f'{found} instead of {outcome}'


TAP = '# random seed: 1\n1..2\nok 1 /a\n# okay\nok 2 /b\n'


def check_good():
    expect(('3 passed, 0 failed', 0), {'result': 'OK', 'stdout': TAP}, {'result': 'OK', 'stdout': 'fine'}, missing=True)


def check_bad():
    expect(('1 passed, 1 failed', 1), {'result': 'FAIL', 'stdout': 'ok 1 /a\nnot ok 2 /b\n'})


def check_crash():
    expect(('2 passed, 1 failed', 1), {'result': 'FAIL', 'stdout': TAP})
    expect(('0 passed, 1 failed', 1), {'result': 'TIMEOUT'})
    expect(('0 passed, 1 failed', 1), {'result': 'ERROR', 'stdout': '1..0\n'})


def check_skip():
    expect(('1 passed, 1 failed', 1), {'result': 'OK', 'stdout': 'ok 1 /a\nok 2 /b # SKIP no screen\n'})
    expect(('0 passed, 1 failed', 1), {'result': 'SKIP'})


def check_nothing():
    expect(('0 passed, 0 failed', 1), missing=True)


if __name__ == '__main__':
    sys.exit(tap.run([
        ('checks that pass are counted one by one', check_good),
        ('a failed check is counted and told', check_bad),
        ('a program that dies or hangs counts as a failure', check_crash),
        ('a skipped check has shown nothing', check_skip),
        ('no tests at all is a failure', check_nothing),
    ]))
