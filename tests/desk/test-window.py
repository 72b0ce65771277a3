"""The whole program with a real window, worked as a maker works it: by pointer and by keyboard, saved, killed, opened again. What the window
made is read back by the program's own commands, so that window and terminal are held to the same figures.

Usage: test-window.py ODDMENT SAMPLE, on a display of its own.
"""

import glob
import json
import os
import sys
import time
import zipfile

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..'))
import tap  # noqa: E402
from desk import ENV, ODDMENT, SAMPLE, TEMP, Window, copy_of_sample, done, run, totals, wait_for, worked  # noqa: E402

FIRST_SCRAP = (70, 175)          # in the tray of a window of 1280 x 800
OPEN_END = (820, 420)            # below the column that is not finished
FIRST_TASK = (900, 285)          # of the order of work
SEAM = (672, 378)                # a sewn, unpressed seam of the third panel


def sew_on_by_pointer():
    def work(window):
        window.drag(*FIRST_SCRAP, *OPEN_END)
        window.drop()
        window.save()

    def after(before, now, path):
        assert now['patches'] == before['patches'] + 1, (before, now)
        assert now['to_sew'] == before['to_sew'] + 1, (before, now)
        assert now['bare'] == before['bare'], (before, now)
        assert run(ODDMENT, 'check', path).returncode == 0

    worked('pointer.oddment', work, after)


def put_back_by_key():
    def work(window):
        window.drag(*FIRST_SCRAP, *OPEN_END)
        window.key('Tab', 'r', 'Escape')
        window.drop()
        window.key('ctrl+s')

    def after(before, now, path):
        assert now == before, (before, now)

    worked('put-back.oddment', work, after)


def build_by_keyboard():
    def work(window):
        for _ in range(2):
            window.key('ctrl+f', 'Tab', 'Tab', 'Tab')     # search, filter, order, scraps
            window.key('Home', 'Return')                  # into the hand
            time.sleep(0.5)
            window.key('Return')                          # sewn on
            time.sleep(0.7)
        window.save()

    def after(before, now, path):
        assert now['patches'] == before['patches'] + 2, (before, now)

    worked('keyboard.oddment', work, after)


def mark_a_seam():
    def work(window):
        window.click(*SEAM)
        window.key('ctrl+m')
        window.save()

    def after(before, now, path):
        assert now['to_press'] == before['to_press'] - 1, (before, now)
        assert now['done'] == before['done'] + 1, (before, now)

    worked('mark.oddment', work, after)


def work_off_a_stop():
    def work(window):
        window.key('alt+3')
        time.sleep(2.5)          # the plan, and the first pictures
        window.click(*FIRST_TASK)
        for key in ('space', 'space', 'BackSpace'):
            window.key(key)
            time.sleep(1.6)      # a tick is seen for a moment
        window.save()

    def after(before, now, path):
        assert now['to_press'] == before['to_press'] - 1, (before, now)
        assert now['raw_inside'] == 0, now

    worked('work.oddment', work, after)


def time_the_work():
    def work(window):
        window.key('alt+3')
        time.sleep(2.5)
        window.click(*FIRST_TASK)
        window.key('t')
        time.sleep(2)
        window.key('p')          # the telephone
        time.sleep(6)
        window.key('p')
        time.sleep(1)
        window.key('space')
        time.sleep(1.6)
        window.key('t')
        window.save()
        window.key('h')          # her times beside the usual ones
        window.focus(window.dialog())
        window.key('Escape')

    def after(before, now, path):
        with zipfile.ZipFile(path) as file:
            record = json.loads(file.read('job.json'))['record']
        times = [act for act in record if act['act'] == 'time']
        assert len(times) == 1, record
        tasks, _, seconds, low, high = times[0]['figures']
        assert tasks == 1 and 0 < low <= high, times
        assert 2 <= seconds <= 7, ('the pause counted', times)

    worked('time.oddment', work, after)


def unpick_a_seam():
    def work(window):
        window.click(*SEAM)
        window.key('u')
        window.focus(window.dialog())
        window.key('alt+u')
        time.sleep(0.8)
        window.focus(window.ids[-1])
        window.save()

    def after(before, now, path):
        assert now['to_sew'] == before['to_sew'] + 1, (before, now)
        assert now['to_press'] == before['to_press'] - 1, (before, now)

    worked('unpick.oddment', work, after)


def undo_to_the_start():
    def work(window):
        window.drag(*FIRST_SCRAP, *OPEN_END)
        window.drop()
        window.click(*SEAM)
        window.key('ctrl+m')
        window.save()
        window.key('ctrl+z', 'ctrl+z')
        window.save()

    def after(before, now, path):
        assert open(path, 'rb').read() == open(SAMPLE, 'rb').read(), 'undone, the file differs from the first one'

    worked('undo.oddment', work, after)


def killed_and_recovered():
    path = copy_of_sample('killed.oddment')
    before = totals(path)
    window = Window(path)
    try:
        window.drag(*FIRST_SCRAP, *OPEN_END)
        window.drop()
        saved = lambda: glob.glob(os.path.join(ENV['XDG_STATE_HOME'], 'oddment', 'autosave', '*.oddment'))  # noqa: E731
        copies = wait_for('a copy for the worst case', saved, 90)
        wait_for('the copy to be whole', lambda: totals(copies[0])['patches'] == before['patches'] + 1, 30)
    finally:
        window.kill()
    assert open(path, 'rb').read() == open(SAMPLE, 'rb').read(), 'the file was touched'

    window = Window(path)
    try:
        everything = wait_for('the offer to recover', lambda: len(window.windows() or []) >= 2 and window.windows())
        names = {w: run('xdotool', 'getwindowname', w).stdout for w in everything}
        question = [w for w in everything if 'Oddment' not in names[w]] or everything[-1:]
        window.focus(question[0])
        window.key('Return')
        time.sleep(2.5)
        recovered = wait_for('a window that holds what was recovered', lambda: [w for w in (window.windows() or []) if w not in everything])
        window.focus(recovered[0])
        window.key('ctrl+s')
        wait_for('what was recovered to be saved', lambda: totals(path)['patches'] == before['patches'] + 1)
    finally:
        window.close()


def asked_on_close():
    path = copy_of_sample('close.oddment')
    window = Window(path)
    try:
        window.drag(*FIRST_SCRAP, *OPEN_END)
        window.drop()
        window.key('ctrl+w')
        window.focus(window.dialog())
        window.key('Escape')
        time.sleep(0.5)
        assert window.process.poll() is None, 'closed although the question was called off'
        window.focus(window.ids[-1])
        window.key('ctrl+w')
        window.focus(window.dialog())
        window.key('Return')     # Save
        wait_for('the program to end', lambda: window.process.poll() is not None)
        assert totals(path)['patches'] == totals(SAMPLE)['patches'] + 1
    finally:
        window.close()


def broken_file():
    path = os.path.join(TEMP, 'broken.oddment')
    with open(SAMPLE, 'rb') as file:
        half = file.read()[:4000]
    with open(path, 'wb') as file:
        file.write(half)
    window = Window(path)
    try:
        assert window.process.poll() is None, 'a broken file ended the program'
        assert open(path, 'rb').read() == half
    finally:
        window.close()


def two_thousand_scraps():
    path = os.path.join(TEMP, 'many.json')
    scraps = [{'outline_mm': [[0, 0], [60 + i % 190, 3], [58 + i % 170, 40 + i % 130], [2, 44 + i % 120]]} for i in range(2000)]
    with open(path, 'w') as file:
        json.dump({'scraps': scraps}, file)
    window = Window(path)
    try:
        window.key('ctrl+f', 'Tab', 'Tab', 'Tab', 'End')
        time.sleep(0.5)
        window.key('Return')
        time.sleep(0.6)
        window.key('Return')
        time.sleep(0.6)
        assert window.process.poll() is None, 'two thousand scraps ended the program'
    finally:
        window.close()


try:
    status = tap.run([
        ('a scrap sewn on by pointer', sew_on_by_pointer),
        ('a scrap put back by key while the pointer holds it', put_back_by_key),
        ('a column built by keyboard alone', build_by_keyboard),
        ('a seam marked by key', mark_a_seam),
        ('a stop of the order of work by keyboard', work_off_a_stop),
        ('the work timed by key, a pause left out', time_the_work),
        ('a seam unpicked', unpick_a_seam),
        ('undo brings the same bytes', undo_to_the_start),
        ('killed in the middle and recovered', killed_and_recovered),
        ('asked before closing', asked_on_close),
        ('a file cut short', broken_file),
        ('two thousand scraps', two_thousand_scraps),
    ])
finally:
    done()
sys.exit(status)
