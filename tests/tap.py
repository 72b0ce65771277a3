"""A few lines of TAP, so that meson counts the checks of a Python test one by one."""

import sys
import traceback


def run(checks):
    """Runs (name, function) pairs. A check fails by raising; what it raises is told."""
    failed = 0
    print(f'1..{len(checks)}')
    for number, (name, check) in enumerate(checks, 1):
        try:
            check()
        except AssertionError as problem:
            failed += 1
            print(f'not ok {number} {name}')
            for line in str(problem).splitlines():
                print(f'# {line}')
        except Exception:
            failed += 1
            print(f'not ok {number} {name}')
            for line in traceback.format_exc().splitlines():
                print(f'# {line}')
        else:
            print(f'ok {number} {name}')
        sys.stdout.flush()
    return 1 if failed else 0
