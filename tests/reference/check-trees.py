#!/usr/bin/python3
"""Works out again what the report says of 1,000 random jobs and of the sample, with Shapely (GEOS) and plain sums.

The regions must tile the panel; each cut shape must follow from its region and the allowances of its seams by the definition
(check-geometry.py has it in half-planes); `check` must call too small what Shapely finds outside its scrap, and nothing else; sizes,
seams and what remains must agree with one another.

Usage: check-trees.py EMITTER SEED CASES ODDMENT SAMPLE; prints TAP.
"""
import importlib.util
import json
import math
import pathlib
import subprocess
import sys

from shapely.geometry import LineString, Polygon
from shapely.ops import unary_union

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent))
import tap  # noqa: E402

SPEC = importlib.util.spec_from_file_location('check_geometry', HERE / 'check-geometry.py')
geometry = importlib.util.module_from_spec(SPEC)
SPEC.loader.exec_module(geometry)

EMITTER, SEED, CASES, ODDMENT, SAMPLE = sys.argv[1:]
FIT_MM = 0.01


def near(got, wanted, tolerance, what):
    assert abs(got - wanted) <= tolerance, f'{what}: {got}, not {wanted}'


def load_cases():
    done = subprocess.run([EMITTER, SEED, CASES], check=True, stdout=subprocess.PIPE, text=True)
    return [json.loads(line) for line in done.stdout.splitlines()]


RANDOM = load_cases()
SAMPLE_REPORT = json.loads(subprocess.run([ODDMENT, 'report', SAMPLE, '--json'], check=True, stdout=subprocess.PIPE, text=True).stdout)
REPORTS = [case['report'] for case in RANDOM] + [SAMPLE_REPORT]


def panels_of(report):
    return [panel for textile in report['textiles'] for panel in textile['panels']] + report['loose_panels']


def every_panel():
    for report in REPORTS:
        yield from panels_of(report)


def check_many():
    assert len(RANDOM) == int(CASES)
    n_patches = sum(len(panel['patches']) for panel in every_panel())
    n_tilted = sum(abs(seam['from_mm'][0] - seam['to_mm'][0]) > 1 and abs(seam['from_mm'][1] - seam['to_mm'][1]) > 1
                   for panel in every_panel() for seam in panel['seams'])
    assert n_patches > 10 * int(CASES) and n_tilted > int(CASES), (n_patches, n_tilted)


def check_tiling():
    for panel in every_panel():
        outline = Polygon(panel['outline_mm'])
        regions = [Polygon(patch['region_mm']) for patch in panel['patches']]
        near(sum(region.area for region in regions), outline.area, 1e-3, 'regions add up')
        near(unary_union(regions).symmetric_difference(outline).area, 0, 1e-2, 'regions cover the outline')
        for axis in range(2):
            near(outline.bounds[axis], 0, 1e-6, 'origin')
            near(outline.bounds[axis + 2], panel['finished_mm'][axis], 1e-6, 'finished size')


def lies_on(a, b, line):
    """Does the edge a -> b lie on the line of this seam?"""
    (x0, y0), (x1, y1) = line
    length = math.dist(*line)
    return length > 0 and all(abs((x1 - x0) * (p[1] - y0) - (y1 - y0) * (p[0] - x0)) / length < 1e-5 for p in (a, b)) and \
        LineString(line).buffer(1e-4).covers(LineString([a, b]))


def side_allowance(panel, a, b, sides):
    width, length = panel['finished_mm']
    for name, axis, at in (('top', 1, 0), ('right', 0, width), ('bottom', 1, length), ('left', 0, 0)):
        if abs(a[axis] - at) < 1e-5 and abs(b[axis] - at) < 1e-5:
            return sides[name]
    raise AssertionError(f'edge {a} {b} lies on no seam and no side')


def check_panel_cuts(panel, sides):
    seams = [((seam['from_mm'], seam['to_mm']), seam['allowance_mm']) for seam in panel['seams']]
    for patch in panel['patches']:
        region = patch['region_mm']
        edges = list(zip(region, region[1:] + region[:1]))
        allowances = [next((allowance for line, allowance in seams if lies_on(a, b, line)), None) for a, b in edges]
        allowances = [side_allowance(panel, *edge, sides) if allowance is None else allowance for edge, allowance in zip(edges, allowances)]
        wanted, got = geometry.cut_shape([tuple(point) for point in region], allowances), Polygon(patch['cut_mm'])
        near(got.symmetric_difference(wanted).area, 0, 1e-2, f"cut shape of patch {patch['id']}")
        assert got.buffer(1e-6).covers(Polygon(region)), f"the region of patch {patch['id']} leaves its cut shape"


def check_cut_shapes():
    """Of the random jobs, whose outer edges have one allowance and whose joins say theirs."""
    for case in RANDOM:
        outer = case['allowance_mm']
        for textile in case['report']['textiles']:
            joins = [join['allowance_mm'] for join in textile['joins']]
            for panel, left, right in zip(textile['panels'], [outer] + joins, joins + [outer]):
                check_panel_cuts(panel, {'top': outer, 'bottom': outer, 'left': left, 'right': right})
        for panel in case['report']['loose_panels']:
            check_panel_cuts(panel, dict.fromkeys(('top', 'right', 'bottom', 'left'), outer))


def sticks_out(patch):
    placed = Polygon(patch['placed_outline_mm'], patch['placed_holes_mm'])
    return not placed.buffer(FIT_MM, join_style=2).covers(Polygon(patch['cut_mm']))


def check_containment():
    n_small = 0
    for case in RANDOM:
        patches = [patch for panel in panels_of(case['report']) for patch in panel['patches'] if patch['scrap'] is not None]
        wanted = sorted(patch['id'] for patch in patches if sticks_out(patch))
        assert wanted == sorted(case['too_small']), f"{wanted} stick out, {case['too_small']} were found"
        n_small += len(wanted)
    assert n_small > int(CASES), n_small


def check_sample_fits():
    for panel in panels_of(SAMPLE_REPORT):
        for patch in panel['patches']:
            assert not sticks_out(patch), f"{panel['name']}, patch {patch['patch']} leaves scrap {patch['scrap']}"
    by_scrap = {}
    for panel in panels_of(SAMPLE_REPORT):
        for patch in panel['patches']:
            by_scrap.setdefault(patch['scrap'], []).append(Polygon(patch['cut_mm']).area)
    areas = {scrap['number']: Polygon(scrap['outline_mm']).area for scrap in SAMPLE_REPORT['scraps']}
    assert max(map(len, by_scrap.values())) > 1
    for number, cuts in by_scrap.items():
        assert sum(cuts) < areas[number], f'more is cut from scrap {number} than there is'


def check_no_neighbours_alike():
    """The sample is to please: no two patches of one fabric side by side."""
    for panel in panels_of(SAMPLE_REPORT):
        for i, one in enumerate(panel['patches']):
            for other in panel['patches'][i + 1:]:
                if one['fabric'] == other['fabric']:
                    shared = Polygon(one['region_mm']).buffer(0.5).intersection(Polygon(other['region_mm'])).area
                    assert shared < 1, f"{panel['name']}: {one['patch']} and {other['patch']} are both {one['fabric']}"


def check_placed():
    """A placement moves cloth, it does not stretch it; what remains lies in the scrap and off the patch."""
    for case in RANDOM:
        scraps = {scrap['number']: scrap for scrap in case['report']['scraps']}
        for panel in panels_of(case['report']):
            for patch in panel['patches']:
                if patch['scrap'] is None:
                    continue
                scrap = scraps[patch['scrap']]
                outline, placed = Polygon(scrap['outline_mm']), Polygon(patch['placed_outline_mm'])
                near(placed.area, outline.area, 1e-3, 'area after placement')
                near(placed.length, outline.length, 1e-6, 'perimeter after placement')
                remains = [Polygon(ring) for ring in scrap['remains']]
                for remain in remains:
                    assert outline.buffer(1e-3).covers(remain), f"what remains of scrap {scrap['number']} leaves it"
                cut = Polygon(patch['cut_mm']).intersection(placed).area
                assert sum(remain.area for remain in remains) <= outline.area - cut + 1, f"scrap {scrap['number']} remains too large"


def check_seams():
    for panel in every_panel():
        borders = unary_union([Polygon(patch['region_mm']).exterior for patch in panel['patches']]).buffer(1e-4)
        for seam in panel['seams']:
            line = LineString([seam['from_mm'], seam['to_mm']])
            assert line.difference(borders).length < 1e-3, f"seam {seam['id']} runs through a patch"
            assert seam['raw_length_mm'] >= line.length - 1e-6


def check_sizes():
    for report in REPORTS:
        for textile in report['textiles']:
            if not textile['panels']:
                continue
            x = 0
            for panel in textile['panels']:
                near(panel['at_mm'][0], x, 1e-6, 'place of a panel')
                near(panel['finished_mm'][1], textile['finished_mm'][1], 1e-6, 'length of a panel')
                x += panel['finished_mm'][0]
            near(textile['finished_mm'][0], x, 1e-6, 'width of the textile')
            near(textile['raw_mm'][0], x + textile['panels'][0]['raw_mm'][0] - textile['panels'][0]['finished_mm'][0]
                 + textile['panels'][-1]['raw_mm'][0] - textile['panels'][-1]['finished_mm'][0]
                 - sum(textile['joins'][i]['allowance_mm'] for i in (0, -1) if textile['joins']), 1e-6, 'raw width')


if __name__ == '__main__':
    sys.exit(tap.run([
        ('jobs enough, tilted seams among them', check_many),
        ('regions tile', check_tiling),
        ('cut shapes', check_cut_shapes),
        ('what is too small', check_containment),
        ('sample fits', check_sample_fits),
        ('sample has no neighbours alike', check_no_neighbours_alike),
        ('placed outlines and remains', check_placed),
        ('seams', check_seams),
        ('sizes', check_sizes),
    ]))
