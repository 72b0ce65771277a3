"""Four small panels worked off by keyboard alone, from the first patch that is cut to the last seam that is pressed, with one seam unpicked and one
operation skipped on the way; after each key the job is saved, and the program's own report must count one task less. Then they are mended, by
keyboard too: a stain found late, the seam unpicked for it, a panel measured short, and what can be done about that.

Usage: test-four-panels.py ODDMENT SAMPLE, on a display of its own.
"""

import json
import os
import sys
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..'))
import tap  # noqa: E402
from desk import ODDMENT, TEMP, Window, done, report, run, still, wait_for  # noqa: E402

PATH = os.path.join(TEMP, 'four.oddment')


def make_job():
    """16 squares of 130 mm, of four invented cloths; four panels of 1 x 3 squares cut 120 mm at 10 mm."""
    tub = os.path.join(TEMP, 'tub.json')
    square = [[0, 0], [130, 0], [130, 130], [0, 130]]
    with open(tub, 'w') as file:
        json.dump({'fabrics': [{'name': f'Cloth {i}', 'lightness': 20 * i} for i in range(1, 5)],
                   'scraps': [{'fabric': f'Cloth {1 + n % 4}', 'number': n + 1, 'washed': True, 'outline_mm': square} for n in range(16)]}, file)
    made = run(ODDMENT, 'piece', tub, '--manner', 'squares', '--template', '120', '--allowance', '10', '--width', '100', '--length', '300', '--panels', '4',
               '--out', PATH)
    assert made.returncode == 0, made.stderr


def count():
    """Open operations, ends to secure, sewn raw inside, seams to sew, of the one textile."""
    now = report(PATH)
    textile = now['textiles'][0]
    return sum(textile['operations_left'].values()), textile['ends_to_secure'], now['totals']['raw_inside'], now['totals']['to_sew']


def others():
    return [which for which in WINDOW.windows() if which not in WINDOW.ids]


def answer(*keys):
    """To the question that just came up."""
    WINDOW.focus(WINDOW.dialog())
    WINDOW.key(*keys)
    wait_for('the question to go', lambda: not others())
    WINDOW.focus(WINDOW.ids[-1])


def type_in(text):
    run('xdotool', 'type', text)
    time.sleep(0.2)


def tick(presses='space'):
    WINDOW.key(presses)
    WINDOW.save()
    return count()


def cut_all():
    """Twelve patches are cut first: no operation of a seam is gone by that."""
    before = count()
    assert before[0] == 11 * 3 and before[3] == 11, before
    for _ in range(12):
        assert tick()[0] == before[0]


def unpick_one():
    """Sewn, then opened: as many operations are open as before it was sewn."""
    before = count()
    sewn = tick('Page_Down')
    assert sewn[0] == before[0] - 1 and sewn[3] == before[3] - 1, (before, sewn)
    # the next stop finishes what is sewn: its first task is of the seam to be opened
    while True:
        now = tick()
        if now[3] == sewn[3]:
            break
        sewn = now
    before = now
    WINDOW.key('u')
    answer('alt+u')
    WINDOW.save()
    now = count()
    assert now[3] == before[3] + 1 and before[0] < now[0] <= before[0] + 2, (before, now)
    assert now[2] == 0, now


def skip_one():
    before = tick()              # sewn again; what comes next finishes a seam
    WINDOW.key('k')
    answer('s', 'e', 'l', 'v', 'e', 'd', 'g', 'e', 'Return')
    WINDOW.save()
    now = count()
    assert now[0] == before[0] - 1, (before, now)
    assert 'selvedge' in run('unzip', '-p', PATH, 'job.json').stdout


def to_the_end():
    """Each key takes one operation away; nothing is ever sewn in raw."""
    now = count()
    for _ in range(40):
        if now[0] == 0:
            break
        before, now = now, tick()
        assert before[0] - now[0] == 1 and now[2] == 0, (before, now)
    assert now[0] == 0 and now[3] == 0, now


def secure_all():
    """The ends at the textile's outer edges, from their list."""
    n = count()[1]
    assert n == 2 * 2 + 2 * 3, n     # of two rows of seams, and of three joins
    WINDOW.key('shift+ctrl+e')
    answer(*['space'] * n, 'Escape')
    WINDOW.save()
    assert count()[1] == 0, count()
    assert run(ODDMENT, 'check', PATH).returncode == 0


def read():
    WINDOW.save()
    return report(PATH)['textiles'][0]


def stain_found_late():
    global WINDOW
    WINDOW.close()
    WINDOW = Window(PATH)
    WINDOW.key('alt+2', 'F6', 'F6', 'Right', 'z')        # the first patch of the first panel
    WINDOW.focus(WINDOW.dialog())
    WINDOW.key(*['Tab'] * 7)
    for figure in ('8', '4', '3'):
        type_in(figure)
        WINDOW.key('Tab', 'Tab')
    type_in('2')
    WINDOW.key('Return')
    time.sleep(1)
    WINDOW.focus(WINDOW.ids[-1])
    WINDOW.save()
    checked = run(ODDMENT, 'check', PATH)
    assert checked.returncode != 0 and 'Panel 1, patch 1' in checked.stdout, checked.stdout
    WINDOW.key('s', 'u')                                 # its seam, and the join across the seam's end
    answer('alt+u')
    WINDOW.save()
    assert count()[3] == 2, count()
    WINDOW.key('Escape', 'Right', 'F6', 'F6', 'Return', 'r')     # released by its menu
    time.sleep(0.8)
    WINDOW.save()
    assert 'is bare' in run(ODDMENT, 'check', PATH).stdout
    WINDOW.key('Tab', 'Tab', 'Return')                   # another scrap chosen
    time.sleep(1)
    WINDOW.key('Return')
    time.sleep(0.8)
    WINDOW.save()
    assert run(ODDMENT, 'check', PATH).returncode == 0
    WINDOW.key('F6', 'F6')


def panel_short():
    """Three squares of 120 mm at 10 mm: 320 mm of raw length planned. 310 measured over two sewn seams: each is 2.5 mm deeper."""
    before = read()
    assert abs(before['raw_mm'][1] - 320.0) < 0.01, before['raw_mm']
    WINDOW.key('Right', 'p', 'm')
    WINDOW.focus(WINDOW.dialog())
    for _ in range(3):
        type_in('31.0')
        WINDOW.key('Tab')
    time.sleep(0.5)
    WINDOW.key('Return')
    time.sleep(1)
    WINDOW.focus(WINDOW.ids[-1])
    measured = read()
    assert abs(measured['raw_mm'][1] - 310.0) < 0.01, measured['raw_mm']
    assert abs(measured['finished_mm'][1] - (310.0 - 20.0)) < 0.01, measured['finished_mm']
    WINDOW.key('alt+4')
    time.sleep(1)
    WINDOW.key('ctrl+u')                                 # what can be done about unequal panels
    answer('Return')                                     # trim to the shortest
    after = read()
    assert after['raw_mm'] == measured['raw_mm'], (after['raw_mm'], measured['raw_mm'])
    assert run(ODDMENT, 'check', PATH).returncode == 0


make_job()
still()
WINDOW = Window(PATH)
try:
    WINDOW.key('alt+3')
    time.sleep(2)
    status = tap.run([
        ('twelve patches cut by key', cut_all),
        ('a seam sewn, unpicked, and to be sewn again', unpick_one),
        ('an operation skipped, with a reason', skip_one),
        ('worked off to the last tick, one by one', to_the_end),
        ('every open end secured from the list', secure_all),
        ('a stain found late: unpicked, released, another scrap', stain_found_late),
        ('a panel short, measured and trimmed to', panel_short),
    ])
finally:
    WINDOW.close()
    done()
sys.exit(status)
