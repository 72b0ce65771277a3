#!/usr/bin/python3
"""Works out again what emit-geometry printed, with Shapely (GEOS) as reference.

Sets, offsets and validity are GEOS on both sides, so these check our use of it.
Everything else is worked out another way here: the cut shape from
half-planes clipped one by one, containment and strip sets from overlays.

Usage: check-geometry.py EMITTER SEED CASES; prints TAP.
"""
import json
import math
import subprocess
import sys

from shapely.affinity import affine_transform
from shapely.geometry import Point, Polygon, box
from shapely.ops import unary_union
from shapely.validation import explain_validity

FAR = 1e4


def polygon(rings):
    return Polygon(rings[0], rings[1:])


def polygons(list_of_rings):
    return unary_union([polygon(rings) for rings in list_of_rings]) if list_of_rings else Polygon()


def parts_of(geometry):
    if geometry.is_empty:
        return []
    if isinstance(geometry, Polygon):
        return [geometry]
    return [g for part in getattr(geometry, "geoms", []) for g in parts_of(part)]


def near(got, expected, tolerance, what):
    assert abs(got - expected) <= tolerance, f"{what}: {got} where {expected} is expected"


def same_area(got, expected, tolerance, what):
    """Equal but for slivers."""
    area = got.symmetric_difference(expected).area
    assert area <= tolerance, f"{what} differs by {area} mm2"


def outside(inner, cloth):
    """Area of inner beyond cloth. Overlays of nearly coincident edges go wrong in GEOS 3.11, the predicate does not."""
    return 0 if cloth.buffer(1e-6).covers(inner) else inner.difference(cloth).area


def half_plane(normal, offset):
    """What of a large square satisfies normal . p <= offset."""
    nx, ny = normal
    x, y = nx * offset, ny * offset
    return Polygon([(x - ny * FAR, y + nx * FAR), (x + ny * FAR, y - nx * FAR),
                    (x + ny * FAR - nx * FAR, y - nx * FAR - ny * FAR),
                    (x - ny * FAR - nx * FAR, y + nx * FAR - ny * FAR)])


def place(shape, case):
    c, s = math.cos(math.radians(case["turn"])), math.sin(math.radians(case["turn"]))
    m = -1 if case.get("mirror") else 1
    dx, dy = case.get("shift", (0, 0))
    return affine_transform(shape, [c * m, -s, s * m, c, dx, dy])


def check_clip(case):
    expected = Polygon(case["region"]).intersection(half_plane(case["normal"], case["offset"]))
    got = Polygon(case["part"]) if case["part"] else Polygon()
    same_area(got, expected, 1e-4, "clip")


# The cut shape, by its definition and in plain numbers.

def clip_ring(ring, normal, offset):
    out = []
    for a, b in zip(ring, ring[1:] + ring[:1]):
        da = normal[0] * a[0] + normal[1] * a[1] - offset
        db = normal[0] * b[0] + normal[1] * b[1] - offset
        if da <= 0:
            out.append(a)
        if da * db < 0:
            t = da / (da - db)
            out.append((a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])))
    return out


def between_planes(planes):
    ring = [(-FAR, -FAR), (FAR, -FAR), (FAR, FAR), (-FAR, FAR)]
    for normal, offset in planes:
        ring = clip_ring(ring, normal, offset)
    return Polygon(ring) if len(ring) >= 3 else Polygon()


def edge_plane(a, b, push):
    length = math.hypot(b[0] - a[0], b[1] - a[1])
    normal = ((b[1] - a[1]) / length, (a[0] - b[0]) / length)
    return normal, normal[0] * a[0] + normal[1] * a[1] + push


def dot(a, b):
    return a[0] * b[0] + a[1] * b[1]


def tip_plane(corner, before, after, first, second, most):
    """The square cut of a sharp tip; None where there is none."""
    (n1, o1), (n2, o2) = first, second
    sine = n1[0] * n2[1] - n1[1] * n2[0]
    if abs(sine) < 1e-12:
        return None
    tip = ((o1 * n2[1] - o2 * n1[1]) / sine, (n1[0] * o2 - n2[0] * o1) / sine)
    distance = math.dist(tip, corner)
    if distance <= most + 1e-6:
        return None
    ahead = ((tip[0] - corner[0]) / distance, (tip[1] - corner[1]) / distance)
    for other in (before, after):
        if dot(ahead, (other[0] - corner[0], other[1] - corner[1])) > 0:
            return None
    return ahead, dot(ahead, corner) + most


def cut_shape(region, allowances):
    n = len(region)
    edges = [edge_plane(region[i], region[(i + 1) % n], allowances[i]) for i in range(n)]
    tips, steps = [], []
    for i in range(n):
        n1, n2 = edges[i - 1][0], edges[i][0]
        turn = math.degrees(math.atan2(n1[0] * n2[1] - n1[1] * n2[0], dot(n1, n2)))
        if turn < 1 and abs(allowances[i - 1] - allowances[i]) > 1e-6:
            steps.append(i)
        else:
            tip = tip_plane(region[i], region[i - 1], region[(i + 1) % n], edges[i - 1], edges[i],
                            2 * max(allowances[i - 1], allowances[i]))
            if tip:
                tips.append(tip)

    # Each way of standing on one side of every step; what stands there forgets the edge on the other side.
    shapes = []
    for sides in range(2 ** len(steps)):
        planes = list(tips)
        forgotten = set()
        for k, i in enumerate(steps):
            normal = edges[i][0]
            along = (-normal[1], normal[0])
            offset = dot(along, region[i])
            if sides >> k & 1:
                planes.append(((-along[0], -along[1]), -offset))
                forgotten.add((i - 1) % n)
            else:
                planes.append((along, offset))
                forgotten.add(i)
        planes += [edge for i, edge in enumerate(edges) if i not in forgotten]
        shapes.append(between_planes(planes))
    return shapes[0] if len(shapes) == 1 else unary_union(shapes).convex_hull


def check_cut_shape(case):
    expected = cut_shape(case["region"], case["allowances"])
    got = Polygon(case["cut"])
    same_area(got, expected, 1e-3, "cut shape")
    assert got.buffer(1e-6).covers(Polygon(case["region"])), "cut shape leaves finished cloth out"


def check_sets(case):
    a, b = polygon(case["a"]), polygon(case["b"])
    same_area(polygons(case["intersection"]), a.intersection(b), 0.1, "intersection")
    same_area(polygons(case["difference"]), a.difference(b), 0.1, "difference")
    same_area(polygons(case["union"]), a.union(b), 0.1, "union")
    near(case["overlap"], a.intersection(b).area, 1e-3, "overlap")
    near(case["outside"], a.difference(b).area, 1e-3, "outside")
    for name in ("intersection", "difference", "union"):
        tops = [min((y, x) for x, y in rings[0]) for rings in case[name]]
        assert tops == sorted(tops), f"{name} is out of order"
        for rings in case[name]:
            assert Polygon(rings[0]).exterior.is_ccw, "outer ring is negative"   # in a frame with y up
            assert not any(Polygon(hole).exterior.is_ccw for hole in rings[1:]), "hole is positive"


def check_offset(case):
    cloth, by = polygon(case["polygon"]), case["by"]
    shrunk, grown = polygons(case["shrunk"]), polygons(case["grown"])
    same_area(shrunk, cloth.buffer(-by, join_style=2, mitre_limit=5), 0.1, "shrunk")
    same_area(grown, cloth.buffer(by, join_style=2, mitre_limit=5), 0.1, "grown")
    for part in parts_of(shrunk):
        # GEOS joins corners of a mitre by its own tolerance of a hundredth or so of the distance
        assert part.distance(cloth.boundary) >= by - 0.02 * by, "shrunk comes too near to the border"
    if case["simple"]:
        simple = polygon(case["simple"])
        assert simple.is_valid, explain_validity(simple)
        assert outside(simple, cloth) <= 1e-6, "simplified leaves the cloth"


def check_contains(case):
    cloth, inner = polygon(case["polygon"]), Polygon(case["inner"])
    beyond = outside(inner, cloth)
    if beyond > 1e-3:
        assert not case["contains"], f"{beyond} mm2 outside passed"
    if cloth.covers(inner):
        assert case["contains"], "inside refused"
    point = Point(case["point"])
    if cloth.boundary.distance(point) > 1e-5:
        assert case["contains_point"] == cloth.contains(point), "point"


def check_new(case):
    ring = Polygon(case["ring"])
    assert (case["area"] is not None) == ring.is_valid, explain_validity(ring)
    if ring.is_valid:
        near(case["area"], ring.area, 1e-6, "area")


def check_strips(case):
    placed = place(polygon(case["polygon"]), case)
    sheared = affine_transform(placed, [1, -case["shear"], 0, 1, 0, 0])
    left, _, right, _ = sheared.bounds
    strip = box(left - 1, case["y0"], right + 1, case["y1"])

    # Every x over which something of the strip is not cloth drops out.
    gaps = sorted((g.bounds[0], g.bounds[2]) for g in parts_of(strip.difference(sheared)))
    expected, at = [], left - 1
    for start, end in gaps:
        if start > at:
            expected.append((at, start))
        at = max(at, end)
    expected = [i for i in expected if i[1] - i[0] > 1e-4]
    got = [i for i in case["set"] if i[1] - i[0] > 1e-4]
    assert len(got) == len(expected), f"{got} where {expected} is expected"
    for g, e in zip(got, expected):
        near(g[0], e[0], 1e-5, "from")
        near(g[1], e[1], 1e-5, "to")


def check_rectangle(case):
    if case["box"] is None:
        return
    placed = place(polygon(case["polygon"]), case)
    x, y, width, height = case["box"]
    beyond = outside(box(x, y, x + width, y + height), placed)
    assert beyond <= 1e-3, f"rectangle sticks out by {beyond} mm2"


def check_fit(case):
    cloth = polygon(case["polygon"])
    for part in case["parts"]:
        beyond = outside(Polygon(part), cloth)
        assert beyond <= 1e-3, f"a part sticks out by {beyond} mm2"
    if case["shift"] is not None:
        dx, dy = case["shift"]
        beyond = outside(Polygon([(x + dx, y + dy) for x, y in case["shape"]]), cloth)
        assert beyond <= 1e-3, f"a fit sticks out by {beyond} mm2"


def check_place(case):
    same_area(polygon(case["placed"]), place(polygon(case["polygon"]), case), 1e-6, "placed")


CHECKS = {
    "clip": check_clip, "cut-shape": check_cut_shape, "sets": check_sets, "offset": check_offset,
    "contains": check_contains, "new": check_new, "strips": check_strips, "rectangle": check_rectangle,
    "fit": check_fit, "place": check_place,
}


def main():
    emitter, seed, cases = sys.argv[1:]
    seen = dict.fromkeys(CHECKS, 0)
    failures = {kind: [] for kind in CHECKS}
    with subprocess.Popen([emitter, seed, cases], stdout=subprocess.PIPE, text=True) as process:
        for line in process.stdout:
            case = json.loads(line)
            kind = case["kind"]
            try:
                CHECKS[kind](case)
            except AssertionError as error:
                failures[kind].append(f"{error}: {line.strip()}")
            seen[kind] += 1

    print(f"1..{len(CHECKS)}")
    for number, kind in enumerate(CHECKS, 1):
        good = not failures[kind] and seen[kind] == int(cases)
        print(f"{'ok' if good else 'not ok'} {number} - {kind}, {seen[kind]} cases, {len(failures[kind])} wrong")
        for failure in failures[kind][:3]:
            print(f"# {failure}")
    return 1 if process.returncode or any(failures.values()) else 0


if __name__ == "__main__":
    sys.exit(main())
