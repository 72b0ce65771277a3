"""The command that pieces, from outside: figures, files and refusals.

Usage: test-piece.py ODDMENT SOURCE

What it wrote is read back through the report and measured by Shapely.
"""

import json
import os
import pathlib
import random
import subprocess
import sys
import tempfile

from shapely.geometry import Polygon

SOURCE = pathlib.Path(sys.argv[2])
sys.path.insert(0, str(SOURCE / 'tests'))
import tap  # noqa: E402

ODDMENT = sys.argv[1]
TEMPORARY = tempfile.TemporaryDirectory()
ROOM = pathlib.Path(TEMPORARY.name)


def run(*words):
    """Without a display: nothing here may need one."""
    kept = {name: value for name, value in os.environ.items() if name not in ('DISPLAY', 'WAYLAND_DISPLAY', 'G_DEBUG')}
    return subprocess.run([ODDMENT, *map(str, words)], stdin=subprocess.DEVNULL, capture_output=True,
                          env={**kept, 'LC_ALL': 'C.UTF-8'}, encoding='utf-8', timeout=120)


def scrap_list(name, n):
    """Sheared quadrilaterals of five invented fabrics, always the same."""
    rand = random.Random(n)
    scraps = []
    for number in range(1, n + 1):
        w, h, s = rand.uniform(90, 260), rand.uniform(90, 200), rand.uniform(-20, 20)
        scraps.append({'fabric': f'Cloth {rand.randint(1, 5)}', 'number': number, 'washed': True,
                       'outline_mm': [[0, 0], [w, s], [w + s, h + s], [s, h]]})
    path = ROOM / name
    path.write_text(json.dumps({'fabrics': [{'name': f'Cloth {i}', 'lightness': 15 * i} for i in range(1, 6)], 'scraps': scraps}))
    return path


TUB = scrap_list('tub.json', 120)
SMALL = scrap_list('small.json', 4)


def pieced(tub, *words, out='out.oddment'):
    done = run('piece', tub, *words, '--out', ROOM / out)
    assert done.returncode == 0, f'status {done.returncode}: {done.stderr}'
    figures = dict(line.split(' ', 1) for line in done.stdout.splitlines())
    report = run('report', ROOM / out, '--json')
    assert report.returncode == 0, report.stderr
    return figures, json.loads(report.stdout)


def refused(*words, says):
    out = ROOM / 'refused.oddment'
    done = run('piece', TUB, *words, '--out', out)
    assert done.returncode == 2, f'status {done.returncode}: {done.stdout}{done.stderr}'
    assert not done.stdout and len(done.stderr.splitlines()) == 1, done.stderr
    assert says in done.stderr, f'no “{says}” in {done.stderr}'
    assert not out.exists(), 'a file was written all the same'


def textile_panels(report):
    return report['textiles'][0]['panels']


def check_sound(report):
    """Cut shapes inside placed scraps; regions tile."""
    for panel in textile_panels(report):
        total = 0.0
        for patch in panel['patches']:
            region = Polygon(patch['region_mm'])
            total += region.area
            if patch['scrap'] is None:
                continue
            assert Polygon(patch['placed_outline_mm']).buffer(1e-5).covers(Polygon(patch['cut_mm'])), f'patch {patch["id"]} leaves its scrap'
        assert abs(total - Polygon(panel['outline_mm']).area) < 1e-2, 'regions do not tile'


def squares():
    """80 mm squares: 7 x 80 = 560 is the least that reaches 500, 8 x 80 = 640 just reaches itself."""
    figures, report = pieced(TUB, '--manner', 'squares', '--template', '100', '--allowance', '10', '--width', '500', '--length', '64cm')
    assert figures['finished'] == '560.0 x 640.0 mm' and figures['grid'] == '7 x 8', figures
    assert figures['patches'] == '56' and figures['bare'] == '0', figures
    assert figures['own-bound'] == '64.0 %', figures
    # rows of 7 in 3 rounds, 8 rows in 3 more: ceil(log2 n) each
    assert figures['rounds'] == '6', figures
    low, high = [float(word) for word in figures['work-time'].split()[:-1:2]]
    assert 0 < low < high, figures
    panel, = textile_panels(report)
    assert [round(x, 6) for x in panel['finished_mm']] == [560, 640] and len(panel['patches']) == 56
    check_sound(report)


def columns():
    figures, report = pieced(TUB, '--manner', 'columns', '--width', '250', '--length', '800', '--panels', '3', '--allowance', '10', '--smallest', '35')
    assert figures['panels'] == '3' and figures['finished'] == '250.0 x 800.0 mm', figures
    assert float(figures['smallest-side'].split()[0]) >= 35, figures
    assert len(textile_panels(report)) == 3
    assert report['textiles'][0]['finished_mm'] == [750, 800], report['textiles'][0]['finished_mm']
    check_sound(report)


def crumbs():
    """By Shapely: nothing narrower than asked for (the least distance of two parallel lines that hold the patch, over its edges)."""
    words = ['--manner', 'crumbs', '--width', '250', '--length', '700', '--panels', '2', '--allowance', '10', '--smallest', '32', '--tilt', '25', '--moves', '1000']
    figures, report = pieced(TUB, *words)
    assert figures['panels'] == '2' and figures['finished'] == '250.0 x 700.0 mm' and figures['bare'] == '0', figures
    check_sound(report)
    for panel in textile_panels(report):
        corners = [list(Polygon(patch['region_mm']).exterior.coords) for patch in panel['patches']]
        assert any(len(ring) - 1 != 4 or abs(ring[0][0] - ring[1][0]) > 1 < abs(ring[0][1] - ring[1][1]) for ring in corners), 'no seam leans'
        for ring in corners:
            widths = []
            for (ax, ay), (bx, by) in zip(ring, ring[1:]):
                length = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
                widths.append(max(abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / length for x, y in ring))
            assert min(widths) >= 32 - 1e-6, f'{min(widths)} mm wide'


def finish_and_allowance():
    _, report = pieced(TUB, '--manner', 'columns', '--width', '250', '--length', '300', '--panels', '2', '--finish', 'french')
    for panel in textile_panels(report):
        assert {(s['finish'], s['allowance_mm']) for s in panel['seams']} == {('French', 15.875)}, panel['seams'][0]
    assert report['textiles'][0]['joins'][0]['allowance_mm'] == 15.875
    _, report = pieced(TUB, '--manner', 'squares', '--width', '250', '--length', '300', '--finish', 'french', '--allowance', '12')
    assert {s['allowance_mm'] for p in textile_panels(report) for s in p['seams']} == {12}


def two_templates():
    _, report = pieced(TUB, '--manner', 'squares', '--template', '100', '--template', '70x60', '--allowance', '10', '--width', '400', '--length', '600')
    sizes = {tuple(round(side) for side in (b[2] - b[0], b[3] - b[1])) for p in textile_panels(report)[0]['patches'] for b in [Polygon(p['region_mm']).bounds]}
    assert (80, 80) in sizes and (50, 40) in sizes, sizes
    check_sound(report)


def same_bytes():
    words = ['--manner', 'columns', '--width', '250', '--length', '600', '--seed', '7', '--moves', '20000']
    for out, more in (('a.oddment', ['--threads', '1']), ('b.oddment', ['--threads', '4']), ('c.oddment', ['--seed', '8'])):
        pieced(TUB, *words, *more, out=out)
    a, b, c = ((ROOM / f'{name}.oddment').read_bytes() for name in 'abc')
    assert a == b, 'the number of threads changed the job'
    assert a != c, 'another seed changed nothing'


def goes_on_from_a_job():
    pieced(TUB, '--manner', 'squares', '--width', '300', '--length', '300', out='first.oddment')
    _, report = pieced(ROOM / 'first.oddment', '--manner', 'columns', '--width', '250', '--length', '300', out='second.oddment')
    assert len(textile_panels(report)) == 2
    check_sound(report)


def not_enough():
    done = run('piece', SMALL, '--manner', 'squares', '--width', '800', '--length', '800', '--out', ROOM / 'few.oddment')
    assert done.returncode == 0, done.stderr
    assert 'are missing' in done.stdout and 'stay bare' in done.stdout, done.stdout


def by_the_clock():
    done = run('piece', TUB, '--manner', 'squares', '--width', '800', '--length', '800', '--seconds', '0.3', '--out', ROOM / 'clock.oddment')
    assert done.returncode == 0, done.stderr


def counts():
    """By hand: 240 x 110 gives two squares cut 100, 90 x 300 none; of two sizes it gives 3 of 90 x 90. Nothing is written."""
    path = ROOM / 'three.json'
    sides = [(240, 110), (90, 300), (60, 50)]
    path.write_text(json.dumps({'fabrics': [{'name': 'Lawn', 'gsm': 80}],
                                'scraps': [{'number': 4 + i, 'fabric': 'Lawn', 'washed': True, 'outline_mm': [[0, 0], [w, 0], [w, h], [0, h]]}
                                           for i, (w, h) in enumerate(sides)]}))
    before = sorted(ROOM.iterdir())
    done = run('piece', path, '--manner', 'squares', '--template', '100', '--allowance', '10', '--count')
    assert done.returncode == 0, done.stderr
    lines = done.stdout.splitlines()
    assert lines[:4] == ['scrap 4 2', 'scrap 5 0', 'scrap 6 0', 'all 2'], lines
    figures = dict(line.split(' ', 1) for line in lines[3:])
    assert figures['scraps'] == '3' and figures['none'] == '2' and figures['none-not-weighed'] == '0', figures
    assert figures['none-area'] == '300.0 cm2' and figures['none-weight'] == '2.4 g', figures
    # 240 x 110 leaves no offcut that holds 50 x 50
    assert figures['net-yield'] == f'{100 * 2 * 6400 / 26400:.1f} %', figures
    assert figures['of-heap'] == f'{100 * 2 * 6400 / 56400:.1f} %' and figures['own-bound'] == '64.0 %', figures
    done = run('piece', path, '--manner', 'squares', '--template', '90', '--template', '50', '--allowance', '10', '--count')
    assert done.stdout.splitlines()[1] == 'scrap 5 3 0', done.stdout
    assert sorted(ROOM.iterdir()) == before, 'a file was written'
    pieced(path, '--manner', 'squares', '--width', '80', '--length', '80', out='one.oddment')
    words = ['piece', ROOM / 'one.oddment', '--manner', 'squares', '--count']
    assert run(*words).stdout.splitlines()[:3] == ['scrap 5 0', 'scrap 6 0', 'all 0']
    assert run(*words, '--remains').stdout.splitlines()[:4] == ['left 4 1', 'scrap 5 0', 'scrap 6 0', 'all 1']


def count_agrees_with_what_is_pieced():
    done = run('piece', TUB, '--manner', 'squares', '--count')
    counted = sum(int(line.split()[2]) for line in done.stdout.splitlines() if line.startswith('scrap '))
    rows = counted // 5 + 1
    figures, report = pieced(TUB, '--manner', 'squares', '--width', '400', '--length', str(80 * rows))
    assert figures['patches'] == str(counted) and figures['bare'] == str(5 * rows - counted), figures
    used = {}
    for patch in textile_panels(report)[0]['patches']:
        if patch['scrap'] is None:
            continue
        used[patch['scrap']] = used.get(patch['scrap'], 0) + 1
    for line in done.stdout.splitlines():
        if line.startswith('scrap '):
            number, n = line.split()[1:]
            assert used.get(int(number), 0) == int(n), line


def refusals():
    size = ['--width', '300', '--length', '300']
    refused('--manner', 'spirals', *size, says='spirals')
    refused(*size, says='--manner')
    refused('--manner', 'squares', '--length', '300', says='--width')
    refused('--manner', 'squares', '--width', '0', '--length', '300', says='width')
    refused('--manner', 'squares', '--width', '-300', '--length', '300', says='width')
    refused('--manner', 'squares', '--width', '300 parsecs', '--length', '300', says='--width')
    refused('--manner', 'squares', *size, '--template', '20', '--allowance', '10', says='allowance')
    refused('--manner', 'squares', *size, '--template', '900', says='None of the 120 free scraps')
    refused('--manner', 'squares', *size, '--finish', 'glued', says='french')
    refused('--manner', 'squares', *size, '--panels', '0', says='--panels')
    refused('--manner', 'squares', *size, '--seed', 'x', says='seed')
    refused('--manner', 'squares', *size, '--tilt', '8', says='--tilt')
    refused('--manner', 'squares', *size, '--shape', TUB, says='--width')
    refused('--manner', 'squares', '--shape', TUB, says='120 outlines')
    refused('--manner', 'squares', '--shape', 'nowhere.json', says='nowhere.json')
    refused('--manner', 'columns', *size, '--template', '100', says='--template')
    refused('--manner', 'columns', *size, '--at-most', 'No such=20', says='No such')
    refused('--manner', 'columns', *size, '--at-most', 'Cloth 1=200', says='0 to 100')
    refused('--manner', 'squares', *size, '--at-most', 'Cloth 1=20', '--at-least', 'Cloth 1=30', says='--at-most')
    refused('--manner', 'squares', *size, '--at-least', 'Cloth 1=60', '--at-least', 'Cloth 2=60', says='120 percent')
    refused('--manner', 'squares', '--count', says='--out')
    refused('--manner', 'crumbs', *size, '--tilt', '50', says='50.0 degrees')
    refused('--manner', 'crumbs', *size, '--scale', '12', says='middle patch')
    refused('--manner', 'columns', *size, '--liveliness', '2', says='Liveliness')
    refused('--manner', 'columns', *size, '--spread', 'odd', says='light-top')
    refused('--manner', 'columns', *size, '--seconds', '-1', says='seconds')
    done = run('piece', TUB, '--manner', 'columns', *size)
    assert done.returncode == 2 and '--out' in done.stderr, done.stderr
    for words, says in ((['squares', '--template', '0'], 'template is 0.0 mm'), (['squares', '--template', '25', '--allowance', '9'], 'Two allowances'),
                        (['columns'], '--manner squares only')):
        done = run('piece', TUB, '--count', '--manner', *words)
        assert done.returncode == 2 and says in done.stderr and len(done.stderr.splitlines()) == 1 and not done.stdout, done.stderr


sys.exit(tap.run([
    ('squares', squares),
    ('columns', columns),
    ('crumbs', crumbs),
    ('finish and allowance', finish_and_allowance),
    ('two templates', two_templates),
    ('same seed, same bytes', same_bytes),
    ('goes on from a job', goes_on_from_a_job),
    ('not enough cloth', not_enough),
    ('counts what scraps give', counts),
    ('counts what is pieced then', count_agrees_with_what_is_pieced),
    ('by the clock', by_the_clock),
    ('refusals', refusals),
]))
