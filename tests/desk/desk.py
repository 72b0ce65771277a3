"""A window of the program, its keys and its pointer, and what the program's own commands read back. For the tests beside it."""

import json
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time

ODDMENT, SAMPLE = sys.argv[1], sys.argv[2]
TEMP = tempfile.mkdtemp(prefix='oddment-desk-')
ENV = dict(os.environ, GDK_BACKEND='x11', GSK_RENDERER='cairo', ADW_DISABLE_PORTAL='1', GTK_A11Y='none', GSETTINGS_BACKEND='memory',
           LC_ALL='C.UTF-8', NO_AT_BRIDGE='1')
ENV.pop('G_DEBUG', None)
for name in ('XDG_STATE_HOME', 'XDG_CACHE_HOME', 'XDG_CONFIG_HOME', 'XDG_DATA_HOME'):
    ENV[name] = os.path.join(TEMP, name.lower())
    os.makedirs(ENV[name])
os.makedirs(os.path.join(ENV['XDG_CONFIG_HOME'], 'gtk-4.0'))


def wait_for(what, ask, seconds=20):
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        answer = ask()
        if answer:
            return answer
        time.sleep(0.1)
    raise AssertionError(f'waited {seconds} s for {what}')


def run(*words):
    return subprocess.run(words, env=ENV, capture_output=True, text=True, timeout=60)


def report(path):
    done = run(ODDMENT, 'report', path, '--json')
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def totals(path):
    return report(path)['totals']


class Window:
    """One running program on one file."""

    def __init__(self, path=None):
        self.log = open(os.path.join(TEMP, 'log'), 'w')
        self.process = subprocess.Popen([ODDMENT] + ([path] if path else []), env=ENV, stdout=self.log, stderr=self.log)
        self.path = path
        self.ids = wait_for('a window', self.windows)
        time.sleep(2.5)          # first tiles and thumbnails
        self.focus(self.ids[-1])

    def windows(self):
        found = run('xdotool', 'search', '--onlyvisible', '--pid', str(self.process.pid)).stdout.split()
        return found if found else None

    def focus(self, which):
        run('xdotool', 'windowmove', which, '0', '0')
        run('xdotool', 'windowfocus', '--sync', which)
        time.sleep(0.3)

    def key(self, *keys):
        for key in keys:
            run('xdotool', 'key', key)
            time.sleep(0.35)

    def move(self, x, y):
        run('xdotool', 'mousemove', str(int(x)), str(int(y)))
        time.sleep(0.06)

    def click(self, x, y):
        self.move(x, y)
        time.sleep(0.2)
        run('xdotool', 'click', '1')
        time.sleep(0.5)

    def drag(self, x, y, to_x, to_y):
        self.move(x, y)
        run('xdotool', 'mousedown', '1')
        for i in range(1, 13):
            self.move(x + (to_x - x) * i / 12, y + (to_y - y) * i / 12)
        time.sleep(0.6)

    def drop(self):
        run('xdotool', 'mouseup', '1')
        time.sleep(0.6)

    def save(self):
        before = os.stat(self.path).st_mtime_ns
        self.key('ctrl+s')
        wait_for('the file to be saved', lambda: os.stat(self.path).st_mtime_ns != before)

    def dialog(self):
        return wait_for('a question', lambda: len(self.windows() or []) > len(self.ids) and [w for w in self.windows() if w not in self.ids])[0]

    def kill(self):
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()

    def close(self):
        if self.process.poll() is None:
            self.process.terminate()
            self.process.wait(timeout=20)
        self.log.close()


def copy_of_sample(name):
    path = os.path.join(TEMP, name)
    shutil.copy(SAMPLE, path)
    return path


def worked(name, work, after):
    """A window on a copy of the sample, worked, then the file looked at."""
    path = copy_of_sample(name)
    before = totals(path)
    window = Window(path)
    try:
        work(window)
        assert window.process.poll() is None, 'the program ended by itself'
        after(before, totals(path), path)
    finally:
        window.close()


def still():
    """Windows opened from now on do not animate: what a key did is there at once."""
    with open(os.path.join(ENV['XDG_CONFIG_HOME'], 'gtk-4.0', 'settings.ini'), 'w') as file:
        file.write('[Settings]\ngtk-enable-animations=false\n')


def done():
    shutil.rmtree(TEMP, ignore_errors=True)
