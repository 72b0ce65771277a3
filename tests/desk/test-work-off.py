"""Four small panels worked off by keyboard alone, from the first patch that is cut to the last seam that is pressed, with one seam unpicked and one
operation skipped on the way. After each key the job is saved, and the program's own report must count one task less.

Usage: test-work-off.py ODDMENT, on a display of its own.
"""

import json
import os
import shutil
import subprocess
import sys
import tempfile
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..'))
import tap  # noqa: E402

ODDMENT = sys.argv[1]
TEMP = tempfile.mkdtemp(prefix='oddment-work-off-')
ENV = dict(os.environ, GDK_BACKEND='x11', GSK_RENDERER='cairo', ADW_DISABLE_PORTAL='1', GTK_A11Y='none', GSETTINGS_BACKEND='memory',
           LC_ALL='C.UTF-8', NO_AT_BRIDGE='1')
ENV.pop('G_DEBUG', None)
for name in ('XDG_STATE_HOME', 'XDG_CACHE_HOME', 'XDG_CONFIG_HOME', 'XDG_DATA_HOME'):
    ENV[name] = os.path.join(TEMP, name.lower())
    os.makedirs(ENV[name])
os.makedirs(os.path.join(ENV['XDG_CONFIG_HOME'], 'gtk-4.0'))
with open(os.path.join(ENV['XDG_CONFIG_HOME'], 'gtk-4.0', 'settings.ini'), 'w') as file:
    file.write('[Settings]\ngtk-enable-animations=false\n')
PATH = os.path.join(TEMP, 'four.oddment')


def run(*words):
    return subprocess.run(words, env=ENV, capture_output=True, text=True, timeout=60)


def wait_for(what, ask, seconds=20):
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        answer = ask()
        if answer:
            return answer
        time.sleep(0.1)
    raise AssertionError(f'waited {seconds} s for {what}')


def make_job():
    """16 squares of 130 mm, of four invented cloths; four panels of 1 x 3 squares cut 120 mm at 10 mm."""
    tub = os.path.join(TEMP, 'tub.json')
    square = [[0, 0], [130, 0], [130, 130], [0, 130]]
    with open(tub, 'w') as file:
        json.dump({'fabrics': [{'name': f'Cloth {i}', 'lightness': 20 * i} for i in range(1, 5)],
                   'scraps': [{'fabric': f'Cloth {1 + n % 4}', 'number': n + 1, 'washed': True, 'outline_mm': square} for n in range(16)]}, file)
    done = run(ODDMENT, 'piece', tub, '--manner', 'squares', '--template', '120', '--allowance', '10', '--width', '100', '--length', '300', '--panels', '4',
               '--out', PATH)
    assert done.returncode == 0, done.stderr


def count():
    """Open operations, ends to secure, sewn raw inside, seams to sew, of the one textile."""
    done = run(ODDMENT, 'report', PATH, '--json')
    assert done.returncode == 0, done.stderr
    report = json.loads(done.stdout)
    textile = report['textiles'][0]
    return sum(textile['operations_left'].values()), textile['ends_to_secure'], report['totals']['raw_inside'], report['totals']['to_sew']


def windows():
    return run('xdotool', 'search', '--onlyvisible', '--pid', str(PROGRAM.pid)).stdout.split()


def focus(which):
    run('xdotool', 'windowfocus', '--sync', which)
    time.sleep(0.3)


def key(*keys):
    for name in keys:
        run('xdotool', 'key', name)
        time.sleep(0.3)


def save():
    before = os.stat(PATH).st_mtime_ns
    key('ctrl+s')
    wait_for('the file to be saved', lambda: os.stat(PATH).st_mtime_ns != before)


def answer(*keys):
    """To the question that just came up."""
    focus(wait_for('a question', lambda: [w for w in windows() if w != MAIN])[0])
    key(*keys)
    wait_for('the question to go', lambda: windows() == [MAIN])
    focus(MAIN)


def tick(presses='space'):
    key(presses)
    time.sleep(0.25)
    save()
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
    key('u')
    answer('alt+u')
    save()
    now = count()
    assert now[3] == before[3] + 1 and before[0] < now[0] <= before[0] + 2, (before, now)
    assert now[2] == 0, now


def skip_one():
    before = tick()              # sewn again; what comes next finishes a seam
    key('k')
    answer('s', 'e', 'l', 'v', 'e', 'd', 'g', 'e', 'Return')
    save()
    now = count()
    assert now[0] == before[0] - 1, (before, now)
    done = run('unzip', '-p', PATH, 'job.json')
    assert 'selvedge' in done.stdout


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
    key('shift+ctrl+e')
    focus(wait_for('the list of ends', lambda: [w for w in windows() if w != MAIN])[0])
    key(*['space'] * n)
    key('Escape')
    wait_for('the list to close', lambda: windows() == [MAIN])
    focus(MAIN)
    save()
    assert count()[1] == 0, count()


make_job()
PROGRAM = subprocess.Popen([ODDMENT, PATH], env=ENV, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
try:
    MAIN = wait_for('a window', windows)[-1]
    time.sleep(2.5)
    focus(MAIN)
    key('alt+3')
    time.sleep(2)
    status = tap.run([
        ('twelve patches cut by key', cut_all),
        ('a seam sewn, unpicked, and to be sewn again', unpick_one),
        ('an operation skipped, with a reason', skip_one),
        ('worked off to the last tick, one by one', to_the_end),
        ('every open end secured from the list', secure_all),
    ])
finally:
    PROGRAM.terminate()
    PROGRAM.wait(timeout=20)
    shutil.rmtree(TEMP, ignore_errors=True)
sys.exit(status)
