"""The commands from outside: what they print, and with which exit status.

Usage: test-command.py ODDMENT MAKE-SAMPLE SOURCE

The report is put to python3-jsonschema, which knows nothing of us.
"""

import io
import json
import os
import pathlib
import stat
import subprocess
import sys
import tempfile
import zipfile

import jsonschema
from shapely import affinity, geometry, ops

SOURCE = pathlib.Path(sys.argv[3])
sys.path.insert(0, str(SOURCE / 'tests'))
import tap  # noqa: E402

ODDMENT = sys.argv[1]
MAKE_SAMPLE = sys.argv[2]
SAMPLE = SOURCE / 'data' / 'sample.oddment'
HERE = SOURCE / 'tests' / 'commands'
SCHEMA = json.loads((SOURCE / 'data' / 'report.schema.json').read_text(encoding='utf-8'))
TEMPORARY = tempfile.TemporaryDirectory()
ROOM = pathlib.Path(TEMPORARY.name)

SCRAPS = {'fabrics': [{'name': 'Sage gingham'}],
          'scraps': [{'fabric': 'Sage gingham', 'outline_mm': [[0, 0], [200, 10], [180, 150], [0, 140]], 'number': 7},
                     {'outline_mm': [[0, 0], [0, 80], [90, 80], [90, 0]]}]}


def run(*words, stdout=subprocess.PIPE):
    """Without a display: nothing here may need one."""
    kept = {name: value for name, value in os.environ.items() if name not in ('DISPLAY', 'WAYLAND_DISPLAY', 'G_DEBUG')}
    return subprocess.run([ODDMENT, *map(str, words)], stdin=subprocess.DEVNULL, stdout=stdout, stderr=subprocess.PIPE,
                          env={**kept, 'LC_ALL': 'C.UTF-8'}, encoding='utf-8', timeout=60)


def refused(*words, says=(), stdout=subprocess.PIPE):
    """Status 2, nothing on standard output, one line on standard error that holds all of @says."""
    done = run(*words, stdout=stdout)
    assert done.returncode == 2, f'{words}: status {done.returncode}, {done.stderr}'
    assert not done.stdout, f'{words}: printed {done.stdout!r}'
    lines = done.stderr.splitlines()
    assert len(lines) == 1 and lines[0].startswith('oddment: '), f'{words}: {done.stderr!r}'
    for text in says:
        assert text in lines[0], f'{words}: no “{text}” in {lines[0]}'
    return lines[0]


def wrote(name, content):
    path = ROOM / name
    path.write_bytes(content if isinstance(content, bytes) else json.dumps(content).encode())
    return path


def zipped(text, name='job.json'):
    held = io.BytesIO()
    with zipfile.ZipFile(held, 'w', zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(name, text)
    return held.getvalue()


def sample_job():
    with zipfile.ZipFile(SAMPLE) as archive:
        return json.loads(archive.read('job.json'))


def report(path):
    done = run('report', path, '--json')
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def area(ring):
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:] + ring[:1])) / 2


def rings(value, member=''):
    if isinstance(value, dict):
        for name, inner in value.items():
            yield from rings(inner, name)
    elif member in ('region_mm', 'cut_mm', 'placed_outline_mm', 'outline_mm') and value is not None:
        yield value
    elif member in ('remains', 'placed_holes_mm'):
        yield from value
    elif isinstance(value, list):
        for inner in value:
            yield from rings(inner, member)


def check_help():
    done = run('--help')
    assert done.returncode == 0 and not done.stderr
    for word in ('report', 'picture', 'check', 'FILE', 'Exit status'):
        assert word in done.stdout, f'{word} is not in the help'
    for command in ('report', 'picture', 'check'):
        told = run(command, '--help')
        assert told.returncode == 0 and 'FILE' in told.stdout, told.stdout


def check_version():
    done = run('--version')
    assert done.returncode == 0 and done.stdout.startswith('oddment 0.'), done.stdout


def check_usage():
    refused('reprot', SAMPLE, says=['reprot', '--help'])
    refused('reprot', says=['reprot'])
    refused('report', says=['FILE'])
    refused('report', SAMPLE, SAMPLE, says=['FILE'])
    refused('report', '--jsno', SAMPLE, says=['--jsno', '--help'])
    refused('report', '--unit', 'furlong', SAMPLE, says=['furlong', 'cm, mm or in'])
    refused('report', '--paper', 'a7', '--pdf', ROOM / 'x.pdf', SAMPLE, says=['a7', 'letter'])
    refused('picture', SAMPLE, says=['OUT.png'])
    refused('picture', SAMPLE, ROOM / 'x.png', '--show', 'thread', says=['thread', 'lightness'])
    refused('picture', SAMPLE, ROOM / 'x.png', '--textile', 'Sail', says=['Sail', 'report'])
    refused('check', says=['FILE'])
    assert not (ROOM / 'x.png').exists() and not (ROOM / 'x.pdf').exists()


def check_report():
    """Word for word: people read it, and their scripts do."""
    done = run('report', SAMPLE)
    assert done.returncode == 0 and not done.stderr, done.stderr
    wanted = (HERE / 'sample-report.txt').read_text(encoding='utf-8').replace('FILE', str(SAMPLE))
    assert done.stdout == wanted, done.stdout


def check_report_units():
    data = report(SAMPLE)
    width, length = data['textiles'][0]['finished_mm']
    told = run('report', SAMPLE, '--unit', 'mm').stdout
    assert f'{width:.1f} × {length:.1f} mm' in told, told
    eighths = round(width / 25.4 * 8)
    told = run('report', SAMPLE, '--unit', 'in').stdout
    assert f'{eighths // 8} ' in told and ' in' in told, told


def check_schema():
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    jsonschema.validate(report(SAMPLE), SCHEMA, cls=jsonschema.Draft202012Validator)
    jsonschema.validate(report(wrote('list.json', SCRAPS)), SCHEMA, cls=jsonschema.Draft202012Validator)


def check_rings():
    found = list(rings(report(SAMPLE)))
    assert len(found) > 400, len(found)
    for ring in found:
        assert ring[0] != ring[-1], f'closed: {ring}'
        assert area(ring) > 0, f'not positive: {ring}'


def check_totals():
    """The totals against a count of the rest of the same report."""
    data = report(SAMPLE)
    panels = [panel for textile in data['textiles'] for panel in textile['panels']] + data['loose_panels']
    seams = [seam for panel in panels for seam in panel['seams']] + [join for textile in data['textiles'] for join in textile['joins']]
    totals = data['totals']
    patches = [patch for panel in panels for patch in panel['patches']]
    states = [scrap['state'] for scrap in data['scraps']]
    assert totals['panels'] == len(panels) and totals['patches'] == len(patches) and totals['seams'] == len(seams)
    assert abs(totals['raw_length_mm'] - sum(seam['raw_length_mm'] for seam in seams)) < 1e-5
    assert abs(totals['cloth_mm2'] - sum(area(patch['region_mm']) for patch in patches if patch['scrap'])) < 1e-2
    assert totals['scraps'] == {state: states.count(state) for state in ('free', 'placed', 'sewn', 'gone')}
    done = sum(all(operation['state'] != 'open' for operation in seam['operations']) for seam in seams)
    assert totals['done'] == done
    assert totals['to_sew'] + totals['to_finish'] + totals['to_press'] + totals['to_topstitch'] + done == len(seams)


def check_scrap_list():
    data = report(wrote('list.json', SCRAPS))
    numbers = [scrap['number'] for scrap in data['scraps']]
    assert numbers[0] == 7 and numbers[1] not in (0, 7), numbers
    assert data['scraps'][0]['fabric'] == 'Sage gingham' and data['scraps'][1]['fabric'] is None
    assert data['scraps'][0]['outline_mm'] == SCRAPS['scraps'][0]['outline_mm']
    assert area(data['scraps'][1]['outline_mm']) == 7200
    assert data['totals']['scraps']['free'] == 2


def check_sound():
    done = run('check', SAMPLE)
    assert (done.returncode, done.stdout, done.stderr) == (0, '', ''), done


def spoil(job, what):
    leaves = [node for textile in job['textiles'] for panel in textile['panels'] for node in panel['nodes'] if 'scrap' in node]
    what(leaves)
    return wrote('spoilt.oddment', zipped(json.dumps(job)))


def check_findings():
    """A patch made bare, and one shifted off its scrap: a line each, with place and remedy, and status 1."""
    def make_bare(leaves):
        leaves[0]['kind'] = 'bare'
        for member in ('scrap', 'turn_deg', 'shift_mm'):
            del leaves[0][member]
        leaves[1]['shift_mm'][0] += 60

    path = spoil(sample_job(), make_bare)
    done = run('check', path)
    assert done.returncode == 1 and not done.stderr, done
    lines = done.stdout.splitlines()
    assert len(lines) >= 2 and 'bare' in lines[0] and 'too small' in lines[1], lines
    assert all(line.endswith('.') for line in lines)
    told = run('report', path)
    assert told.returncode == 0 and f'{len(lines)} findings' in told.stdout, told.stdout


def bad_files():
    text = SAMPLE.read_bytes()
    yield 'empty.oddment', b'', []
    yield 'broken.oddment', text[:len(text) // 2], []
    yield 'noise.oddment', bytes(range(256)) * 4, []
    yield 'cut.json', b'{"scraps":[{"outline_mm":[[0,0],[1', []
    yield 'outside.oddment', zipped('{}', '../job.json'), []
    yield 'types.json', {'scraps': [{'outline_mm': 'round'}]}, ['outline_mm']
    yield 'infinite.json', b'{"scraps":[{"outline_mm":[[0,0],[1e999,0],[0,9]]}]}', []
    yield 'twice.json', b'{"scraps":[],"scraps":[]}', ['twice']
    yield 'deep.json', b'[' * 65 + b']' * 65, []
    yield 'two.json', {'scraps': [{'outline_mm': [[0, 0], [90, 0]]}]}, []
    yield 'crossing.json', {'scraps': [{'outline_mm': [[0, 0], [90, 90], [90, 0], [0, 90]]}]}, []
    yield 'many.json', {'scraps': [{'outline_mm': [[i, i * i / 1e4] for i in range(10001)]}]}, ['10000']
    yield 'far.json', {'scraps': [{'outline_mm': [[0, 0], [10001, 0], [0, 90]]}]}, []
    yield 'unknown.json', {'fabrics': [], 'scraps': [{'fabric': 'Felt', 'outline_mm': [[0, 0], [90, 0], [0, 90]]}]}, ['Felt']
    yield 'fibres.json', {'fabrics': [{'name': 'A', 'fibres': [{'name': 'cotton', 'percent': 90}]}], 'scraps': []}, []
    yield 'newer.oddment', zipped(json.dumps({**sample_job(), 'version': '2.0'})), []


def check_bad_input():
    for name, content, says in bad_files():
        path = wrote(name, content)
        for words in (('report', path), ('report', path, '--json'), ('check', path), ('picture', path, ROOM / 'bad.png')):
            refused(*words, says=[name, *says])
    assert not (ROOM / 'bad.png').exists()


def check_no_file():
    refused('report', ROOM / 'nowhere.oddment', says=['nowhere.oddment'])
    refused('check', ROOM, says=[ROOM.name])
    closed = wrote('closed.oddment', b'x')
    closed.chmod(0)
    if os.geteuid() != 0:
        refused('report', closed, says=['closed.oddment'])
    closed.chmod(stat.S_IRUSR | stat.S_IWUSR)


def check_full_disk():
    with open('/dev/full', 'w', encoding='utf-8') as full:
        refused('report', SAMPLE, stdout=full)
        refused('report', SAMPLE, '--json', stdout=full)
        refused('--help', stdout=full)


def check_sample():
    """The file that ships is what its maker makes, byte for byte."""
    subprocess.run([MAKE_SAMPLE, ROOM / 'again.oddment'], check=True, timeout=60)
    assert (ROOM / 'again.oddment').read_bytes() == SAMPLE.read_bytes(), 'run build/data/sample/make-sample data/sample.oddment'


def check_sample_holds():
    data = report(SAMPLE)
    assert len(data['scraps']) >= 60 and len({scrap['fabric'] for scrap in data['scraps']}) >= 12
    assert len(data['textiles'][0]['panels']) + len(data['loose_panels']) == 4
    assert data['totals']['scraps']['free'] >= 30
    assert data['totals']['bare'] == 0 and data['totals']['raw_inside'] == 0
    assert data['totals']['to_sew'] > 0 and data['totals']['done'] > 0
    ends = {end['kind'] for panel in data['loose_panels'] for seam in panel['seams'] for end in seam['ends']}
    assert 'back-stitched' in ends, ends


def check_pieced():
    """A piece and its two halves: what they report follows the schema, and their patches tile what they say (python3-shapely)."""
    text = (SOURCE / 'tests' / 'fuzz' / 'corpus' / 'job' / 'pieced.json').read_text(encoding='utf-8')
    told = report(wrote('pieced.oddment', zipped(text)))
    jsonschema.validate(told, SCHEMA)
    pieced = [scrap for scrap in told['scraps'] if 'piece' in scrap]
    assert [scrap['fabric'] for scrap in pieced] == ['pieced'] * 3
    assert [scrap['state'] for scrap in pieced] == ['gone', 'free', 'free']
    assert [scrap['parent'] for scrap in pieced] == [None, pieced[0]['number'], pieced[0]['number']]
    assert {scrap['state'] for scrap in told['scraps'] if 'piece' not in scrap} == {'sewn'}
    whole, *halves = [geometry.Polygon(scrap['outline_mm']) for scrap in pieced]
    assert abs(halves[0].union(halves[1]).symmetric_difference(whole).area) < 1e-3
    assert halves[0].intersection(halves[1]).area < 1e-3
    for scrap in pieced:
        piece = scrap['piece']
        outline = geometry.Polygon(piece['outline_mm'])
        patches = [geometry.Polygon(patch['region_mm']) for patch in piece['patches']]
        assert abs(ops.unary_union(patches).symmetric_difference(outline).area) < 1e-3
        assert abs(sum(patch.area for patch in patches) - outline.area) < 1e-3
        placed = affinity.translate(outline, *piece['at_mm'])
        assert placed.difference(geometry.Polygon(scrap['outline_mm'])).area < 1e-3
    cut = [sum(end['kind'] == 'cut' for seam in scrap['piece']['seams'] for end in seam['ends']) for scrap in pieced]
    assert cut[0] == 0 and cut[1] == cut[2] > 0, cut


if __name__ == '__main__':
    sys.exit(tap.run([
        ('help', check_help),
        ('version', check_version),
        ('wrong usage', check_usage),
        ('report for people', check_report),
        ('units', check_report_units),
        ('schema', check_schema),
        ('rings are open and positive', check_rings),
        ('totals', check_totals),
        ('pieced scraps', check_pieced),
        ('scrap list', check_scrap_list),
        ('sample is sound', check_sound),
        ('findings', check_findings),
        ('bad input', check_bad_input),
        ('no file', check_no_file),
        ('full disk', check_full_disk),
        ('sample is what its maker makes', check_sample),
        ('what the sample holds', check_sample_holds),
    ]))
