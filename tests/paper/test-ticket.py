"""The work ticket as a PDF, read and drawn by another program: poppler.

Usage: test-ticket.py ODDMENT SOURCE
"""

import os
import pathlib
import re
import subprocess
import sys
import tempfile

SOURCE = pathlib.Path(sys.argv[2])
sys.path.insert(0, str(SOURCE / 'tests'))
import tap  # noqa: E402

ODDMENT = sys.argv[1]
SAMPLE = SOURCE / 'data' / 'sample.oddment'
TEMPORARY = tempfile.TemporaryDirectory()
ROOM = pathlib.Path(TEMPORARY.name)
MM_PER_POINT = 25.4 / 72
CAUTION = "Usual cautions only. Your local law, workplace rules and the makers' instructions come first."


def out(*words):
    return subprocess.run(list(map(str, words)), check=True, stdout=subprocess.PIPE, timeout=60).stdout


def write(name, *options, **environment):
    kept = {key: value for key, value in os.environ.items() if key not in ('DISPLAY', 'WAYLAND_DISPLAY', 'SOURCE_DATE_EPOCH')}
    done = subprocess.run([ODDMENT, 'report', SAMPLE, '--pdf', ROOM / name, *options], stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                          env={**kept, 'LC_ALL': 'C.UTF-8', **environment}, encoding='utf-8', timeout=60)
    assert done.returncode == 0 and not done.stderr, done.stderr
    return ROOM / name


def text(path, page=None, layout='-layout'):
    pages = ['-f', page, '-l', page] if page else []
    return out('pdftotext', layout, *pages, path, '-').decode()


def info(path):
    return dict(re.findall(r'^([^:]+):\s+(.*)$', out('pdfinfo', '-isodates', path).decode(), re.MULTILINE))


def picture(path, page, dpi):
    """Rows of grey, 0 is black."""
    grey = out('pdftoppm', '-gray', '-r', dpi, '-f', page, '-l', page, path)
    head = re.match(rb'P5\s+(\d+)\s+(\d+)\s+255\s', grey)
    width, height = int(head[1]), int(head[2])
    return [grey[head.end() + y * width:head.end() + (y + 1) * width] for y in range(height)]


def runs(line):
    """Lengths of what is dark without a break."""
    return [len(found[0]) for found in re.finditer(rb'[\x00-\x7f]+', line)]


def test_square(path):
    """Outer width and height of the square in mm, measured in the picture at 10 px a mm: both sides are straight lines of that length."""
    rows = picture(path, 1, 254)
    columns = [bytes(column) for column in zip(*rows)]
    wide = [run for row in rows for run in runs(row) if 480 <= run <= 520]
    high = [run for column in columns for run in runs(column) if 480 <= run <= 520]
    assert wide and high, 'no line of about 5 cm'
    return max(wide) / 10, max(high) / 10


def check_square():
    for name, paper in (('a4.pdf', 'a4'), ('letter.pdf', 'letter')):
        for side in test_square(write(name, '--paper', paper)):
            assert abs(side - 50.0) <= 0.1, f'{paper}: {side} mm'


def check_sizes():
    for paper, size in (('a4', (210.0, 297.0)), ('letter', (215.9, 279.4))):
        found = re.match(r'([\d.]+) x ([\d.]+) pts', info(write(f'{paper}.pdf', '--paper', paper))['Page size'])
        for is_points, wanted in zip(found.groups(), size):
            assert abs(float(is_points) * MM_PER_POINT - wanted) < 0.05, f'{paper}: {found[0]}'


def check_bytes():
    first, second = write('one.pdf').read_bytes(), write('two.pdf', TZ='Asia/Tokyo').read_bytes()
    assert first == second
    assert info(ROOM / 'one.pdf')['CreationDate'].startswith('1980-01-01'), info(ROOM / 'one.pdf')
    dated = info(write('dated.pdf', SOURCE_DATE_EPOCH='1000000000'))
    assert dated['CreationDate'].startswith('2001-09-09'), dated


def check_pages():
    path = write('a4.pdf')
    n_pages = int(info(path)['Pages'])
    for page in range(1, n_pages + 1):
        head = text(path, page).strip().splitlines()[0]
        assert 'sample' in head and f'Page {page} of {n_pages}' in head, head


def check_cover():
    path = write('a4.pdf')
    told = text(path, 1)
    report = out(ODDMENT, 'report', SAMPLE).decode()
    for figure in re.findall(r'^  (?:Finished|Raw) +(.*)$', report, re.MULTILINE):
        assert figure in told, f'{figure} is not on the cover'
    for count in re.search(r'Seams +(.*)', report)[1].split(', '):
        assert count in told, f'{count} is not on the cover'
    assert re.search(r'Scale 1 : \d+', told) and '5 cm' in told
    flowing = ' '.join(text(path, 1, '-raw').split())
    assert CAUTION in flowing, flowing[-300:]


def check_panels():
    path = write('a4.pdf')
    for page, (name, n_patches) in enumerate((('Squares', 36), ('Bricks', 22), ('Crumbs', 37), ('On the table', 9)), 2):
        told = text(path, page)
        assert name in told and 'Finished' in told and 'Raw' in told, told
        numbers = set(re.findall(r'(?<![\d.])\d+(?![\d.])', told))
        missing = {str(number) for number in range(1, n_patches + 1)} - numbers
        assert not missing, f'{name}: no {sorted(missing)}'


def check_lists():
    import json
    data = json.loads(out(ODDMENT, 'report', SAMPLE, '--json'))
    told = text(write('lists.pdf', '--sheets', 'cut-list,finishing'), layout='-raw')
    panels = data['textiles'][0]['panels'] + data['loose_panels']
    for panel in panels:
        for patch in panel['patches']:
            assert f"Scrap {patch['scrap']}, {patch['fabric']}" in told, patch['scrap']
    widths = [max(point[0] for point in ring) - min(point[0] for point in ring) for ring in (patch['cut_mm'] for patch in panels[1]['patches'])]
    lengths = [max(point[1] for point in ring) - min(point[1] for point in ring) for ring in (patch['cut_mm'] for patch in panels[1]['patches'])]
    shown = re.findall(r'^([\d.]+) × ([\d.]+) cm$', told[told.index('Cut list'):told.index('Finishing')], re.MULTILINE)[len(panels[0]['patches']):]
    for (width, length), wanted in zip(shown, zip(widths, lengths)):
        assert abs(float(width) - wanted[0] / 10) < 0.006 and abs(float(length) - wanted[1] / 10) < 0.006, (width, length, wanted)
    seams = [seam for panel in panels for seam in panel['seams']] + data['textiles'][0]['joins']
    assert told.count(' cm') > 2 * len(seams)
    listed = told[told.index('Finishing'):]
    wanted = sum(len(seam['operations']) for seam in seams)
    words = len(re.findall(r'^(?:Sew|Neaten|Trim|Fold|Press|Topstitch)$', listed, re.MULTILINE)) or \
        len(re.findall(r'\b(?:Sew|Neaten|Trim|Fold|Press|Topstitch)\b(?! both| the|,)', listed))
    assert words >= wanted, f'{words} boxes for {wanted} operations'


def all_panels():
    import json
    data = json.loads(out(ODDMENT, 'report', SAMPLE, '--json'))
    return data['textiles'][0]['panels'] + data['loose_panels'], data['textiles'][0]['joins']


def check_scraps():
    """Each scrap that is used has one plan, and each patch stands under the plan of its scrap with its measures."""
    panels, _ = all_panels()
    told = text(write('scraps.pdf', '--sheets', 'scraps'), layout='-raw')
    used = {patch['scrap'] for panel in panels for patch in panel['patches']}
    headed = [int(number) for number in re.findall(r'^(?:Scrap|Piece) (\d+) Scale 1 : [\d.]+$', told, re.MULTILINE)]
    assert used <= set(headed), sorted(used - set(headed))
    assert len(headed) == len(set(headed)), 'a scrap has two plans'
    for panel in panels:
        for number, patch in enumerate(panel['patches'], 1):
            line = re.findall(rf"^{panel['name']} {number}: +([\d.]+)", told, re.MULTILINE)
            assert len(line) == 1, f"{panel['name']} {number}: {line}"
            width = max(x for x, _ in patch['cut_mm']) - min(x for x, _ in patch['cut_mm'])
            if 'from the dot' not in told[told.index(f"{panel['name']} {number}:"):][:90]:
                assert abs(float(line[0]) - width / 10) < 0.006, (panel['name'], number, line, width)


def check_stops():
    """All operations of all seams and joins stand in the stops, whatever the manner; the stops are numbered in a row."""
    panels, joins = all_panels()
    seams = [seam for panel in panels for seam in panel['seams']] + joins
    wanted = sum(len(seam['operations']) for seam in seams)
    n_stops = {}
    for manner in 'chain', 'walks':
        told = ' '.join(text(write('stops.pdf', '--sheets', 'stops', '--manner', manner), layout='-raw').split())
        numbers = [int(number) for number in re.findall(r'(?<!: )Stop (\d+): (?:sewing machine|overlocker|iron|table) Rounds? ', told)]
        assert numbers == list(range(1, len(numbers) + 1)), numbers
        found = sum(int(n) for n in re.findall(r'(\d+) operations?,', told)) - len(re.findall('Stitch and back-stitch the cut end', told))
        assert found == wanted, f'{manner}: {found} boxes for {wanted} operations'
        assert len(re.findall('together, 12.7 mm', told)) > 60
        n_stops[manner] = len(numbers)
    assert n_stops['walks'] < n_stops['chain'], n_stops


def check_chosen():
    path = write('one.pdf', '--sheets', 'cover')
    assert int(info(path)['Pages']) == 1
    both = write('both.pdf', '--sheets', 'finishing, cover')
    assert 'Take care' in text(both, 1) and 'Finishing' in text(both, 2)
    for words in (('--sheets', 'covers'), ('--sheets', ''), ('--manner', 'run')):
        done = subprocess.run([ODDMENT, 'report', SAMPLE, '--pdf', ROOM / 'never.pdf', *words], stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                              env={**os.environ, 'LC_ALL': 'C.UTF-8'}, encoding='utf-8')
        assert done.returncode == 2 and len(done.stderr.splitlines()) == 1 and not (ROOM / 'never.pdf').exists(), done


def check_black_and_white():
    """Nothing on any page has a hue."""
    path = write('a4.pdf')
    for page in range(1, int(info(path)['Pages']) + 1, 3):
        pixels = out('pdftoppm', '-r', 40, '-f', page, '-l', page, path)
        body = pixels[re.match(rb'P6\s+\d+\s+\d+\s+255\s', pixels).end():]
        assert body[0::3] == body[1::3] == body[2::3], f'page {page} has colour'


def check_refused():
    done = subprocess.run([ODDMENT, 'report', SAMPLE, '--pdf', ROOM / 'no' / 'where.pdf'], stdout=subprocess.PIPE, stderr=subprocess.PIPE, encoding='utf-8')
    assert done.returncode == 2 and not done.stdout and len(done.stderr.splitlines()) == 1 and 'where.pdf' in done.stderr, done


if __name__ == '__main__':
    sys.exit(tap.run([
        ('test square is 50.0 mm', check_square),
        ('paper sizes', check_sizes),
        ('the same bytes each time', check_bytes),
        ('page headers', check_pages),
        ('cover', check_cover),
        ('panel pages', check_panels),
        ('cut list and seam list', check_lists),
        ('a cutting plan for each scrap that is used', check_scraps),
        ('every operation in a stop', check_stops),
        ('only the sheets that are asked for', check_chosen),
        ('black and white', check_black_and_white),
        ('no such folder', check_refused),
    ]))
