"""What Oddment writes, seen by others: Python's zipfile, json, hashlib and python3-jsonschema.

Usage: check-schema.py SCHEMA WRITER TESTS

SCHEMA is data/job.schema.json, WRITER the program write-sample, TESTS the
folder of the tests.
"""

import copy
import hashlib
import json
import pathlib
import subprocess
import sys
import tempfile
import zipfile

import jsonschema

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent))
import tap  # noqa: E402

SCHEMA, WRITER, TESTS = sys.argv[1:4]
# What the sample holds that Oddment does not know.
PLANTED = {
    'written_by', 'theme', 'thread', 'since', 'grown', 'turned', 'shop', 'shade', 'cause', 'from', 'hint', 'weight', 'mood', 'tape', 'knot',
    'by', 'pin', 'rule', 'glue', 'lace', 'weather', 'diary',
}


def validator(schema, part=None):
    if part:
        schema = {'$schema': schema['$schema'], '$ref': f'#/$defs/{part}', '$defs': schema['$defs']}
    return jsonschema.Draft202012Validator(schema)


def schema():
    return json.loads(pathlib.Path(SCHEMA).read_text(encoding='utf-8'))


def hand_written():
    text = pathlib.Path(TESTS, 'store', 'sample-job.json').read_text(encoding='utf-8')
    return json.loads(text.replace('PICTURE.png', '0' * 64 + '.png'))


def written(name):
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([WRITER, folder, TESTS], check=True, stdout=subprocess.DEVNULL)
        path = pathlib.Path(folder, name)
        if path.suffix == '.json':
            return json.loads(path.read_text(encoding='utf-8'))
        with zipfile.ZipFile(path) as archive:
            assert archive.testzip() is None
            return {info: archive.read(info) for info in archive.infolist()}


def job_of(entries):
    return next(json.loads(data) for info, data in entries.items() if info.filename == 'job.json')


def check_schema_itself():
    jsonschema.Draft202012Validator.check_schema(schema())


def check_hand_written():
    validator(schema()).validate(hand_written())


def check_written():
    for name in ['sample.oddment', 'empty.oddment']:
        validator(schema()).validate(job_of(written(name)))


def check_pieced():
    job = json.loads(pathlib.Path(TESTS, 'fuzz', 'corpus', 'job', 'pieced.json').read_text(encoding='utf-8'))
    validator(schema()).validate(job)
    pieces = [scrap['piece'] for scrap in job['scraps'] if 'piece' in scrap]
    assert len(pieces) == 3, pieces
    cut = [any(seam.get('cut') for node in piece['nodes'] for seam in node.get('seams', [])) for piece in pieces]
    to_size = [sum(edge.get('allowance_mm') == 0 for edge in piece['edges']) for piece in pieces]
    assert cut == [False, True, True] and to_size == [0, 1, 1], (cut, to_size)
    job['scraps'][-1]['piece']['edges'][0]['allowance_mm'] = -1
    assert not validator(schema()).is_valid(job)


def check_list():
    validator(schema(), 'scrapList').validate(written('list.json'))


def check_archive():
    entries = written('sample.oddment')
    names = [info.filename for info in entries]
    assert names[0] == 'job.json' and len(names) == 2, names
    for info, data in entries.items():
        assert info.date_time == (1980, 1, 1, 0, 0, 0), info
        if info.filename == 'job.json':
            assert info.compress_type == zipfile.ZIP_DEFLATED, info
        else:
            assert info.compress_type == zipfile.ZIP_STORED, info
            assert info.filename == f'pictures/{hashlib.sha256(data).hexdigest()}.png', info


# Definitions that others build upon are closed there.
BASES = {'plainFabric', 'plainScrap', 'join', 'panel', 'strip', 'patch'}


def close(definition):
    """Nothing but what is described, in this object and the objects written inside it."""
    if not isinstance(definition, dict):
        return
    if definition.get('type') == 'object':
        definition['unevaluatedProperties'] = False
    for value in definition.get('properties', {}).values():
        close(value)
    close(definition.get('items'))
    for value in definition.get('oneOf', []):
        close(value)


def check_everything_described():
    base = schema()
    for name in BASES:
        assert base['$defs'][name]['type'] == 'object'
    # joins and loose panels use a base as it is; give them a closed copy
    strict = copy.deepcopy(base)
    strict['$defs']['closedJoin'] = {'$ref': '#/$defs/join', 'type': 'object'}
    strict['$defs']['loosePanel'] = {'$ref': '#/$defs/panel', 'type': 'object'}
    strict['$defs']['textile']['properties']['joins']['items'] = {'$ref': '#/$defs/closedJoin'}
    strict['properties']['loose_panels']['items'] = {'$ref': '#/$defs/loosePanel'}
    for name, definition in [('', strict), *strict['$defs'].items()]:
        if name not in BASES:
            close(definition)
        else:
            for value in definition['properties'].values():
                close(value)
    job = job_of(written('sample.oddment'))
    assert not validator(strict).is_valid(job), 'the planted members went unnoticed'
    found = set()
    validator(strict).validate(without_planted(job, found))
    assert found == PLANTED, f'lost: {sorted(PLANTED - found)}'


def without_planted(value, found):
    if isinstance(value, list):
        return [without_planted(element, found) for element in value]
    if not isinstance(value, dict):
        return value
    found |= PLANTED & value.keys()
    return {name: without_planted(inner, found) for name, inner in value.items() if name not in PLANTED}


def spoil(job, path, value):
    for step in path[:-1]:
        job = job[step]
    if value is None:
        del job[path[-1]]
    else:
        job[path[-1]] = value


def check_spoilt():
    panel = ['textiles', 0, 'panels', 0]
    for path, value in [
            (['format'], 'other'),
            (['version', 'major'], 2),
            (['next_id'], 0),
            (['finish'], None),
            (['allowance_mm'], 0),
            (['finishes', 0, 'operations'], []),
            (['finishes', 0, 'operations', 0, 'kind'], 'press'),
            (['fabrics', 0, 'make'], 'felt'),
            (['fabrics', 0, 'print', 'colours', 0], 'red'),
            (['fabrics', 0, 'picture'], 'x.png'),
            (['fabrics', 0, 'shrink_along'], 0.5),
            (['scraps', 0, 'outline_mm'], [[0, 0], [1, 1]]),
            (['scraps', 0, 'outline_mm', 0], [0, 10001]),
            (['scraps', 0, 'zones', 0, 'kind'], 'jam'),
            (['scraps', 0, 'number'], None),
            (panel + ['root'], None),
            (panel + ['nodes', 0, 'seams'], None),
            (panel + ['nodes', 0, 'seams', 1, 'normal'], [2, 0]),
            (panel + ['nodes', 0, 'seams', 1, 'normal'], None),
            (panel + ['nodes', 1, 'seams', 0, 'progress', 0], 'sewn'),
            (panel + ['nodes', 2, 'scrap'], None),
            (panel + ['edges', 0, 'finish'], 'overlocked'),
            (['textiles', 0, 'target_mm'], [1, -1]),
            (['textiles', 0, 'joins', 0, 'id'], None),
    ]:
        job = hand_written()
        spoil(job, path, value)
        assert not validator(schema()).is_valid(job), f'{path} = {value} went unnoticed'


def main():
    return tap.run([
        ('the schema is a JSON Schema of 2020-12', check_schema_itself),
        ('the sample written by hand follows it', check_hand_written),
        ('jobs that Oddment writes follow it', check_written),
        ('a scrap list that Oddment writes follows it', check_list),
        ('every member that Oddment writes is described', check_everything_described),
        ('a job with pieced scraps follows it, each end of a cut seam at its edge', check_pieced),
        ('the archive is one for others too', check_archive),
        ('a spoilt job does not follow the schema', check_spoilt),
    ])


if __name__ == '__main__':
    sys.exit(main())
