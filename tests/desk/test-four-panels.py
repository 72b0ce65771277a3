"""A textile of four panels, pieced by the program, worked off from the first cut to the last iron by keyboard alone, with one seam unpicked and one
operation skipped on the way; then a stain found late, a seam unpicked for it, a panel measured short and what can be done about it. Every step is
read back by the program's own report.

Usage: test-four-panels.py ODDMENT SAMPLE, on a display of its own.
"""

import json
import os
import sys
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..'))
import tap  # noqa: E402
from desk import ODDMENT, TEMP, Window, done, report, run  # noqa: E402

PATH = os.path.join(TEMP, 'four.oddment')
TICK = 1.0                       # a tick is seen for a moment before the next task is chosen
MOST_TICKS = 26


def pieced():
    """Four columns of two patches, 200 x 200 mm finished, from sixteen scraps of 230 x 130 mm: 4 seams and 3 joins."""
    scraps = os.path.join(TEMP, 'scraps.json')
    with open(scraps, 'w') as file:
        json.dump({'scraps': [{'outline_mm': [[0, 0], [230, 0], [230, 130], [0, 130]]} for _ in range(16)]}, file)
    made = run(ODDMENT, 'piece', scraps, '--manner=columns', '--width=200', '--length=200', '--panels=4', '--finish=overlocked', '--liveliness=0',
               '--out=' + PATH)
    assert made.returncode == 0, made.stderr
    assert report(PATH)['totals']['seams'] == 7


def type_in(text):
    run('xdotool', 'type', text)
    time.sleep(0.2)


def read(window):
    window.save()
    return report(PATH)['textiles'][0]


def left(window):
    operations = read(window)['operations_left']
    return [operations[station] for station in ('sewing-machine', 'overlocker', 'iron')]


def answer(window, *keys):
    dialog = window.dialog()
    window.focus(dialog)
    window.key(*keys)
    time.sleep(0.8)
    window.focus(window.ids[-1])


def tick(window, n=1):
    for _ in range(n):
        window.key('space')
        time.sleep(TICK)


def work_off():
    pieced()
    window = Window(PATH)
    try:
        assert left_of_file() == [7, 7, 7]
        window.key('alt+3')
        time.sleep(2.5)              # the plan, and the first pictures
        tick(window, 8)              # every patch cut out
        assert left(window) == [7, 7, 7]
        tick(window)
        assert left(window) == [6, 7, 7]
        window.key('BackSpace')
        time.sleep(TICK)
        assert left(window) == [7, 7, 7]
        tick(window, 4)
        assert left(window) == [3, 7, 7]
        window.key('u')              # at the overlocker: the seam of the chosen task
        answer(window, 'alt+u')
        time.sleep(TICK)
        assert left(window) == [4, 7, 7]
        tick(window, 5)              # sewn again, then four at the overlocker
        assert left(window) == [3, 3, 7]
        window.key('k')
        dialog = window.dialog()
        window.focus(dialog)
        type_in('iron in repair')
        window.key('Return')
        time.sleep(TICK)
        window.focus(window.ids[-1])
        assert left(window) == [3, 3, 6]
        tick(window, MOST_TICKS)     # to the last one; after it the key must do no harm
        window.save()
        end = report(PATH)
        assert left_of_file() == [0, 0, 0], end['textiles'][0]
        assert end['totals']['raw_inside'] == 0 and end['totals']['to_sew'] == 0, end['totals']
        assert run(ODDMENT, 'check', PATH).returncode == 0
    finally:
        window.close()


def left_of_file():
    operations = report(PATH)['textiles'][0]['operations_left']
    return [operations[station] for station in ('sewing-machine', 'overlocker', 'iron')]


def stain_found_late(window):
    window.key('alt+2', 'F6', 'F6', 'Right', 'z')        # the first patch of the first panel
    window.focus(window.dialog())
    window.key(*['Tab'] * 7)
    for figure in ('8', '4', '3'):
        type_in(figure)
        window.key('Tab', 'Tab')
    type_in('2')
    window.key('Return')
    time.sleep(1)
    window.focus(window.ids[-1])
    window.save()
    checked = run(ODDMENT, 'check', PATH)
    assert checked.returncode != 0 and 'Panel 1, patch 1' in checked.stdout, checked.stdout
    window.key('s', 'u')                                 # its seam, and the join across the seam's end
    answer(window, 'alt+u')
    assert left(window)[0] == 2
    window.key('Escape', 'Right', 'F6', 'F6', 'Return', 'r')     # released by its menu
    time.sleep(0.8)
    window.save()
    assert 'is bare' in run(ODDMENT, 'check', PATH).stdout
    window.key('Tab', 'Tab', 'Return')                   # another scrap chosen
    time.sleep(1)
    window.key('Return')
    time.sleep(0.8)
    window.save()
    assert run(ODDMENT, 'check', PATH).returncode == 0
    window.key('F6', 'F6')


def panel_short(window):
    """225.4 mm of raw length planned, 220.0 measured, one seam sewn: 2.7 mm deeper than 12.7, and 5.4 short."""
    before = read(window)
    assert abs(before['raw_mm'][1] - 225.4) < 0.01, before['raw_mm']
    window.key('Right', 'p', 'm')
    window.focus(window.dialog())
    for _ in range(3):
        type_in('22.0')
        window.key('Tab')
    time.sleep(0.5)
    window.key('Return')
    time.sleep(1)
    window.focus(window.ids[-1])
    measured = read(window)
    assert abs(measured['raw_mm'][1] - 220.0) < 0.01, measured['raw_mm']
    assert abs(measured['finished_mm'][1] - (220.0 - 25.4)) < 0.01, measured['finished_mm']
    window.key('alt+4')
    time.sleep(1)
    window.key('ctrl+u')                                 # what can be done about unequal panels
    answer(window, 'Return')                             # trim to the shortest
    after = read(window)
    assert after['raw_mm'] == measured['raw_mm'], (after['raw_mm'], measured['raw_mm'])
    assert run(ODDMENT, 'check', PATH).returncode == 0


def mend():
    window = Window(PATH)
    try:
        stain_found_late(window)
        panel_short(window)
    finally:
        window.close()


try:
    status = tap.run([
        ('four panels worked off by keyboard alone, one seam unpicked, one task skipped', work_off),
        ('a stain found late and a panel short, mended by keyboard alone', mend),
    ])
finally:
    done()
sys.exit(status)
