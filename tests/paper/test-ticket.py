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


def write(name, *options, job=SAMPLE, **environment):
    kept = {key: value for key, value in os.environ.items() if key not in ('DISPLAY', 'WAYLAND_DISPLAY', 'SOURCE_DATE_EPOCH')}
    done = subprocess.run([ODDMENT, 'report', job, '--pdf', ROOM / name, *options], stdout=subprocess.PIPE, stderr=subprocess.PIPE,
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


def words(path, page):
    """Where each word of a page begins and ends, in mm."""
    told = out('pdftotext', '-bbox', '-f', page, '-l', page, path, '-').decode()
    return [(text, *(float(at) * MM_PER_POINT for at in box)) for *box, text in
            re.findall(r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)</word>', told)]


def check_template():
    """A 12 cm square is 120.0 mm wide and high, and a square of 5 cm stands on its sheet. Squares is the only panel with shapes that patches share."""
    for paper in 'a4', 'letter':
        path = write('templates.pdf', '--sheets', 'templates', '--paper', paper)
        assert int(info(path)['Pages']) == 2, info(path)['Pages']
        rows = picture(path, 1, 254)
        columns = [bytes(column) for column in zip(*rows)]
        for lines in rows, columns:
            found = [run for line in lines for run in runs(line)]
            assert abs(max(run for run in found if 1100 < run < 1300) - 1200) <= 1, paper
        for side in test_square(path):
            assert abs(side - 50.0) <= 0.1, f'{paper}: {side} mm'
        told = ' '.join(text(path, 1, '-raw').split())
        assert '12.0 × 12.0 cm' in told and 'Cut 33: Squares 1–33' in told, told


def big_job():
    """One patch of 600 x 800 mm."""
    import json
    scraps = {'scraps': [{'outline_mm': [[0, 0], [700, 0], [700, 950], [0, 950]], 'grain_deg': 90, 'number': 1, 'place': 'A <b>bag</b> & a "tub" ' * 30}],
              'fabrics': [{'name': '<i>Cloth</i> & more ' * 20, 'lightness': 50}]}
    scraps['scraps'][0]['fabric'] = scraps['fabrics'][0]['name']
    (ROOM / 'big.json').write_text(json.dumps(scraps), encoding='utf-8')
    out(ODDMENT, 'piece', ROOM / 'big.json', '--manner', 'squares', '--template', '600x800', '--width', '574.6', '--length', '774.6', '--out', ROOM / 'big.oddment')
    return ROOM / 'big.oddment'


def ends_of_dark(line):
    found = list(re.finditer(rb'[\x00-\x7f]+', line))
    return found[0].start() / 10, found[-1].end() / 10


def check_tiles():
    """The sheets of a template, laid on one another by the rings, are as wide and high as the template; measured in pictures of the sheets."""
    job = big_job()
    for paper, n_columns, n_rows in (('a4', 4, 5), ('letter', 4, 5)):
        path = write('big.pdf', '--sheets', 'templates', '--templates', 'all', '--paper', paper, job=job)
        assert int(info(path)['Pages']) == n_columns * n_rows
        rings = [{label: (x, y) for label, x, y, _, _ in reversed(words(path, page)) if re.fullmatch(r'\d+/\d+', label)}
                 for page in range(1, n_columns * n_rows + 1)]
        for axis, step, last in ((0, 1, n_columns), (1, n_columns, n_columns * (n_rows - 1) + 1)):
            length = 0.0
            for first in range(1, last, step):
                label = f'{first}/{first + step}'
                here, there = rings[first - 1][label], rings[first + step - 1][label]
                assert abs(here[1 - axis] - there[1 - axis]) < 0.05, (paper, label, here, there)
                length += here[axis] - there[axis]
            begin, end = (ends_of_dark(cross_cut(path, page, axis)) for page in (1, last))
            length += end[1] - begin[0]
            assert abs(length - (600.0, 800.0)[axis]) <= 0.2, f'{paper}: {length} mm'


def cross_cut(path, page, axis):
    """A line of the picture, 6.2 cm from the top or from the left, ended above the foot of the sheet and below its head."""
    rows = picture(path, page, 254)
    if axis == 0:
        return rows[620 if page == 1 else 600]
    return b'\xff' * 290 + bytes(row[620] for row in rows[290:len(rows) - 750])


def check_ends():
    """As many ends to secure as the report counts, numbered on the drawing and in the list."""
    import json
    data = json.loads(out(ODDMENT, 'report', SAMPLE, '--json'))
    path = write('ends.pdf', '--sheets', 'ends')
    told = text(path, layout='-raw')
    pages = [text(path, page, '-raw') for page in range(1, int(info(path)['Pages']) + 1)]
    hanging = [page for page in pages if 'On the table' not in page]
    count = sum(int(re.search(r'(\d+) ends? to secure', page)[1]) for page in hanging)
    assert count == data['textiles'][0]['ends_to_secure'], count
    assert told.count('back-stitch') >= count
    for page in pages:
        n_open, n_secured = map(int, re.search(r'(\d+) ends? to secure, (\d+) secured', page).groups())
        n_lines = len(re.findall(r'(?:left|right|upper|lower) end$', page, re.MULTILINE))
        assert n_lines == n_open + n_secured, page


def check_finishing():
    """What is left by station is what the report counts."""
    panels, joins = all_panels()
    operations = [operation for panel in panels for seam in panel['seams'] for operation in seam['operations']] + \
        [operation for join in joins for operation in join['operations']]
    told = ' '.join(text(write('finishing.pdf', '--sheets', 'finishing'), 1, '-raw').split())
    left = sum(int(n) for n in re.findall(r'(\d+) left, [\d.]+ m of seam', told))
    assert left == sum(operation['state'] == 'open' for operation in operations), left
    for name in 'Overlocked and topstitched', 'French', 'Zigzagged', 'Pressed open':
        assert name in text(ROOM / 'finishing.pdf'), name


def check_totals():
    """Rounds, stops, a range of time and thread on the cover, as in the report."""
    import json
    textile = json.loads(out(ODDMENT, 'report', SAMPLE, '--json'))['textiles'][0]
    told = ' '.join(text(write('a4.pdf', '--manner', 'walks'), 1, '-raw').split())
    assert f"of {textile['plans']['walks']['rounds']} Stops {textile['plans']['walks']['stops']} Time" in told, told
    low, high = map(float, re.search(r'Time ([\d.]+) to ([\d.]+) min', told).groups())
    assert low <= textile['minutes']['low'] < textile['minutes']['high'] <= high and high - low < 60, (low, high)
    metres = float(re.search(r'Sewing thread ([\d.]+) m, 1 spool', told)[1])
    assert abs(metres - sum(m for stitch, m in textile['thread_m'].items() if stitch[0] == '3')) < 0.06, metres


def check_stickers():
    """Each scrap that lies in the tub has one, with number and bag; whatever the size, as many to a sheet as the help says."""
    import json
    scraps = [{'outline_mm': [[0, 0], [100 + i, 0], [100, 80]], 'number': i + 1, 'place': f'Bag{i % 3}'} for i in range(70)]
    (ROOM / 'many.json').write_text(json.dumps({'scraps': scraps}), encoding='utf-8')
    for size, n in (('small', 60), ('middle', 36), ('large', 18)):
        for paper in 'a4', 'letter':
            path = write('stickers.pdf', '--sheets', 'stickers', '--stickers', size, '--paper', paper, job=ROOM / 'many.json')
            assert int(info(path)['Pages']) == -(-70 // n), size
            told = [word for page in range(1, -(-70 // n) + 1) for word, *_ in words(path, page)]
            for i in range(70):
                assert str(i + 1) in told, (size, i + 1)
            assert sum(word.startswith('Bag') for word in told) == 70, size
    told = ' '.join(text(path, 1, '-raw').split())
    assert 'small children' in told and 'draft' in told, told


def check_edges():
    """Nothing to print, one scrap, and names that are long and look like markup: still a ticket, with the names as they were typed."""
    import json
    (ROOM / 'empty.json').write_text(json.dumps({'scraps': []}), encoding='utf-8')
    (ROOM / 'one.json').write_text(json.dumps({'scraps': [{'outline_mm': [[0, 0], [90, 0], [0, 60]], 'number': 7, 'place': '<b>&amp;%s%n'}]}), encoding='utf-8')
    for parts in 'usual', 'all', 'scraps', 'ends', 'templates', 'stops', 'stickers':
        path = write('empty.pdf', '--sheets', parts, job=ROOM / 'empty.json')
        assert int(info(path)['Pages']) == 1
        assert ('No panel hangs' if parts in ('usual', 'all') else 'nothing yet') in text(path), text(path)
    told = text(write('one.pdf', '--sheets', 'stickers', job=ROOM / 'one.json'))
    assert '7' in told and '<b>&amp;%s%n' in told, told
    told = ' '.join(text(write('absurd.pdf', '--sheets', 'all', job=big_job()), layout='-raw').split())
    assert '<i>Cloth</i> & more' in told and 'A <b>bag</b> & a "tub"' in told, told[:3000]


def check_template_choice():
    panels, _ = all_panels()
    told = text(write('every.pdf', '--sheets', 'templates', '--templates', 'all'), layout='-raw')
    n = sum(int(number) for number in re.findall(r'Cut (\d+):', told))
    assert n >= sum(len(panel['patches']) for panel in panels), n
    shared, rectangles, every = (int(info(write('choice.pdf', '--sheets', 'templates', '--templates', choice))['Pages']) for choice in ('shared', 'rectangles', 'all'))
    assert shared < rectangles < every, (shared, rectangles, every)


def check_chosen():
    path = write('one.pdf', '--sheets', 'cover')
    assert int(info(path)['Pages']) == 1
    both = write('both.pdf', '--sheets', 'finishing, cover')
    assert 'Take care' in text(both, 1) and 'Finishing' in text(both, 2)
    for words in (('--sheets', 'covers'), ('--sheets', ''), ('--manner', 'run'), ('--templates', 'some'), ('--stickers', 'huge')):
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
        ('every end to secure', check_ends),
        ('what is left by station', check_finishing),
        ('totals on the cover', check_totals),
        ('nothing, one scrap, absurd names', check_edges),
        ('a sticker for each scrap', check_stickers),
        ('a template is true to scale', check_template),
        ('a large template over several sheets', check_tiles),
        ('which templates', check_template_choice),
        ('only the sheets that are asked for', check_chosen),
        ('black and white', check_black_and_white),
        ('no such folder', check_refused),
    ]))
