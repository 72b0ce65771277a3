"""Counts the checks in meson's test logs.

Usage: count.py TESTLOG.json...

Prints the log of each test that failed, then one line, "N passed, M failed", and
exits with 0 only if something passed and nothing failed. Programs that speak TAP
count by their checks, others as one. A program that dies counts as one failure
more than the checks it failed; a skipped check counts as failed, for it has
shown nothing.
"""

import json
import re
import sys

CHECK = re.compile(r'^(not )?ok\b(.*)$')
DIRECTIVE = re.compile(r'#\s*(SKIP|TODO)\b', re.IGNORECASE)


def count(test):
    """Returns (passed, failed) of one test of the log."""
    passed = failed = 0
    for line in (test.get('stdout') or '').splitlines():
        check = CHECK.match(line)
        if not check:
            continue
        if check.group(1) or DIRECTIVE.search(check.group(2)):
            failed += 1
        else:
            passed += 1
    if test['result'] in ('OK', 'EXPECTEDFAIL'):
        return (passed, failed) if passed or failed else (1, 0)
    return passed, max(failed, 1)


def read(path):
    with open(path, encoding='utf-8', errors='replace') as log:
        return [json.loads(line) for line in log if line.strip()]


def main(paths):
    passed = failed = 0
    for path in paths:
        try:
            tests = read(path)
        except OSError:
            tests = []  # meson writes no log for a suite without tests
        for test in tests:
            good, bad = count(test)
            passed += good
            failed += bad
            if bad:
                print(f"---- {test['name']}: {test['result']} ({path})")
                print(test.get('stdout') or '', end='')
                print(test.get('stderr') or '', end='')
    print(f'{passed} passed, {failed} failed')
    return 0 if passed and not failed else 1


if __name__ == '__main__':
    sys.exit(main(sys.argv[1:]))
