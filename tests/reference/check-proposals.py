#!/usr/bin/python3
"""Measures again, with Shapely, the proposals that emit-proposals printed; and
packs small cloths at their best with GLPK, to see what strip cutting gives away.

Usage: check-proposals.py EMITTER SEED CASES; prints TAP.
"""
import json
import math
import os
import subprocess
import sys
import tempfile

from shapely.affinity import affine_transform, translate
from shapely.geometry import Point, Polygon, box
from shapely.ops import unary_union

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), ".."))
import tap  # noqa: E402


def polygon(rings):
    return Polygon(rings[0], rings[1:])


def near(got, expected, tolerance, what):
    assert abs(got - expected) <= tolerance, f"{what}: {got} where {expected} is expected"


def back_to_scrap(shape, patch):
    """Undoes p' = turn (p) + shift."""
    assert not patch["mirror"], "no cloth here is reversible, yet one lies wrong side up"
    c, s = math.cos(math.radians(patch["turn"])), math.sin(math.radians(patch["turn"]))
    x, y = patch["shift"]
    return affine_transform(shape, [c, s, -s, c, -c * x - s * y, s * x - c * y])


def patches_of(case):
    return [(panel, patch) for panel in case["panels"] for patch in panel["patches"]]


def check_tiles(case):
    for panel in case["panels"]:
        outline = Polygon(panel["outline"])
        regions = [Polygon(patch["region"]) for patch in panel["patches"]]
        near(sum(r.area for r in regions), outline.area, 1e-3, "area of all regions")
        near(unary_union([r.buffer(1e-7) for r in regions]).intersection(outline).area, outline.area, 0.1, "area they cover together")
        left, top, right, bottom = outline.bounds
        if "in a shape" in case["kind"]:
            continue
        if case["kind"] != "squares":
            near(right - left, case["width"], 1e-6, "width")
            near(bottom - top, case["length"], 1e-6, "length")
        else:
            assert right - left >= case["width"] - 0.05 and bottom - top >= case["length"] - 0.05, "too small"


def check_pushed(region, cut, allowance):
    """Every edge of the region pushed out by its allowance and no further, but for tips cut square: at most the mitred buffer, at least the
    buffer with its corners cut as near as they may be."""
    most = region.buffer(allowance, join_style=2, mitre_limit=100)
    assert cut.difference(most.buffer(1e-6)).area < 1e-3, f"{cut.difference(most).area} mm2 beyond the pushed edges"
    assert region.buffer(allowance, resolution=64).difference(cut.buffer(1e-6)).area < 1e-3, "less than the allowance somewhere"
    tips = most.difference(cut.buffer(1e-6))
    corners = [p for p in region.exterior.coords]
    for tip in getattr(tips, "geoms", [tips]):
        if tip.area > 1e-3:
            away = min(tip.distance(Point(p)) for p in corners)
            assert away >= 2 * allowance - 1e-3, f"a tip is cut {away} mm from its corner"


def check_cut_shapes(case):
    """Allowances all round, whatever the trees say: every patch of squares and columns is a rectangle, save where the place is none."""
    for _, patch in patches_of(case):
        if case["kind"] == "crumbs" or "in a shape" in case["kind"]:
            check_pushed(Polygon(patch["region"]), Polygon(patch["cut"]), case["allowance"])
            continue
        left, top, right, bottom = Polygon(patch["region"]).bounds
        near(Polygon(patch["region"]).area, (right - left) * (bottom - top), 1e-6, "a region is no rectangle")
        a = case["allowance"]
        difference = Polygon(patch["cut"]).symmetric_difference(box(left - a, top - a, right + a, bottom + a)).area
        assert difference < 1e-3, f"cut shape differs by {difference} mm2"


def cuts_by_scrap(case):
    cuts = {}
    for _, patch in patches_of(case):
        if patch["scrap"]:
            cuts.setdefault(patch["scrap"], []).append(back_to_scrap(Polygon(patch["cut"]), patch))
    return cuts


def check_inside(case):
    outlines = {scrap["id"]: polygon(scrap["outline"]) for scrap in case["scraps"]}
    for scrap, cuts in cuts_by_scrap(case).items():
        for cut in cuts:
            assert outlines[scrap].buffer(1e-5).covers(cut), f"scrap {scrap}: {cut.difference(outlines[scrap]).area} mm2 outside"


def check_disjoint(case):
    remains = {scrap["id"]: [polygon(rings) for rings in scrap["remains"]] for scrap in case["scraps"]}
    for scrap, cuts in cuts_by_scrap(case).items():
        all_parts = cuts + remains[scrap]
        for i, one in enumerate(all_parts):
            for other in all_parts[:i]:
                overlap = one.intersection(other).area
                assert overlap < 1e-2, f"scrap {scrap}: {overlap} mm2 are used twice"


def is_neighbour(one, other):
    if one.distance(other) > 1e-3:
        return False
    return one.buffer(0.01).intersection(other.boundary).length > 0.6


def count_contacts(case):
    laid = []
    for panel, patch in patches_of(case):
        if patch["scrap"]:
            laid.append((patch["fabric"], translate(Polygon(patch["region"]), *panel["at"])))
    return sum(1 for i, (fabric, one) in enumerate(laid) for other_fabric, other in laid[:i]
               if fabric == other_fabric and is_neighbour(one, other))


def least_width(region):
    """Distance of the two nearest parallel lines that hold the region: one of them lies along an edge."""
    ring = list(region.exterior.coords)
    return min(max(abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / math.hypot(bx - ax, by - ay) for x, y in ring)
               for (ax, ay), (bx, by) in zip(ring, ring[1:]) if math.hypot(bx - ax, by - ay) > 1e-9)


def check_figures(case):
    figures = case["figures"]
    placed = [patch for _, patch in patches_of(case) if patch["scrap"]]
    finished = sum(Polygon(p["region"]).area for p in placed)
    cut = sum(Polygon(p["cut"]).area for p in placed)
    used_scraps = {p["scrap"] for p in placed}
    offcuts = [polygon(rings).area for scrap in case["scraps"] if scrap["id"] in used_scraps for rings in scrap["remains"]]
    used = sum(polygon(s["outline"]).area for s in case["scraps"] if s["id"] in used_scraps) - sum(offcuts)
    heap = sum(polygon(s["outline"]).area for s in case["scraps"])
    sides = [least_width(Polygon(p["region"])) for p in placed]

    assert figures["patches"] == len(placed), "patches"
    assert figures["bare"] == len(patches_of(case)) - len(placed), "bare"
    assert figures["scraps"] == len(used_scraps), "scraps used"
    assert figures["offcuts"] == len(offcuts), "offcuts"
    assert figures["contacts"] == count_contacts(case), f"contacts: {figures['contacts']} where {count_contacts(case)} are"
    for name, value in (("finished", finished), ("cut", cut), ("used", used), ("heap", heap), ("offcuts_area", sum(offcuts))):
        near(figures[name], value, 1.0, name)
    near(figures["net_yield"], finished / used, 1e-5, "net yield")
    near(figures["own_bound"], finished / cut, 1e-6, "own bound")
    near(figures["fit"], cut / used, 1e-5, "fit")
    near(figures["of_heap"], finished / heap, 1e-6, "finished of heap")
    near(figures["smallest"], min(sides), 1e-6, "smallest side")
    if case["kind"] in ("crumbs", "columns in a shape"):
        assert min(sides) >= case["least"] - 1e-6, f"{min(sides)} mm wide, where {case['least']} was the least"


def directions_of(region):
    ring = list(region.exterior.coords)
    return [math.degrees(math.atan2(by - ay, bx - ax)) for (ax, ay), (bx, by) in zip(ring, ring[1:])]


def check_rows(case):
    """Columns in any place: seams run all the way across it, from one end of a row to the other, and across the rows. So there is a turn
    at which lines between patches cut the place into bands, each patch lies in one, and inner edges run along the bands or across them."""
    panel = case["panels"][0]
    outline = Polygon(panel["outline"])
    regions = [Polygon(patch["region"]) for patch in panel["patches"]]
    inner = []
    for region in regions:
        ring = list(region.exterior.coords)
        for start, end in zip(ring, ring[1:]):
            middle = Point((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
            if outline.exterior.distance(middle) > 1e-6 and math.dist(start, end) > 1e-6:
                inner.append((start, end))
    turns = [math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])) for a, b in inner]
    for turn in turns:
        assert abs(math.remainder(turn - turns[0], 90)) < 1e-6, f"a seam runs at {turn} where others run at {turns[0]}"
    assert any(is_in_bands(regions, outline, turns[0] + quarter) for quarter in (0, 90)), "there are no rows from side to side"


def is_in_bands(regions, outline, turn):
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    spans = sorted((min(c * y - s * x for x, y in r.exterior.coords), max(c * y - s * x for x, y in r.exterior.coords)) for r in regions)
    bands = []
    for low, high in spans:
        if bands and low < bands[-1][1] - 0.01:
            bands[-1] = (bands[-1][0], max(high, bands[-1][1]))
        else:
            bands.append((low, high))
    for low, high in bands:
        across = [r for r in regions if low - 0.01 <= min(c * y - s * x for x, y in r.exterior.coords) and max(c * y - s * x for x, y in r.exterior.coords) <= high + 0.01]
        along = [(min(c * x + s * y for x, y in r.exterior.coords), max(c * x + s * y for x, y in r.exterior.coords)) for r in across]
        along.sort()
        if any(a[1] > b[0] + 0.01 for a, b in zip(along, along[1:])):
            return False
    return len(bands) > 1


def exact_count(cloth, step):
    """Most squares of two steps on the lattice: at most one over each cell. For cloth on a lattice, squares pushed up and left as far as
    they go all lie on it, so this is the best without turns."""
    left, top, right, bottom = cloth.bounds
    columns, rows = round((right - left) / step), round((bottom - top) / step)
    fits = [(i, k) for i in range(columns - 1) for k in range(rows - 1)
            if cloth.buffer(1e-6).covers(box(i * step, k * step, (i + 2) * step, (k + 2) * step))]
    if not fits:
        return 0
    over = {}
    for i, k in fits:
        for cell in ((i, k), (i + 1, k), (i, k + 1), (i + 1, k + 1)):
            over.setdefault(cell, []).append(f"x{i}_{k}")
    lines = ["Maximize", " n: " + " + ".join(f"x{i}_{k}" for i, k in fits), "Subject To"]
    lines += [f" c{i}_{k}: " + " + ".join(names) + " <= 1" for (i, k), names in over.items()]
    lines += ["Binary"] + [f" x{i}_{k}" for i, k in fits] + ["End"]
    with tempfile.TemporaryDirectory() as folder:
        model, answer = os.path.join(folder, "model.lp"), os.path.join(folder, "answer")
        with open(model, "w", encoding="ascii") as file:
            file.write("\n".join(lines) + "\n")
        subprocess.run(["glpsol", "--lp", model, "--write", answer], check=True, stdout=subprocess.DEVNULL)
        with open(answer, encoding="ascii") as file:
            for line in file:
                if line.startswith("s mip"):
                    words = line.split()
                    assert words[4] == "o", "GLPK found no optimum"
                    return round(float(words[5]))
    raise AssertionError("GLPK gave no answer")


def main():
    emitter, seed, cases = sys.argv[1:4]
    output = subprocess.run([emitter, seed, cases], check=True, capture_output=True, text=True).stdout
    read = [json.loads(line) for line in output.splitlines()]
    proposals = [case for case in read if case["kind"] != "lattice"]
    lattices = [case for case in read if case["kind"] == "lattice"]
    checks = []

    for number, case in enumerate(proposals, 1):
        for name, check in (("patches tile the panels", check_tiles), ("allowances all round", check_cut_shapes),
                            ("cut shapes inside scraps", check_inside), ("cut shapes and offcuts apart", check_disjoint),
                            ("figures", check_figures)):
            checks.append((f"{case['kind']} {number}: {name}", lambda check=check, case=case: check(case)))
        if case["kind"] == "columns in a shape":
            checks.append((f"{case['kind']} {number}: rows from side to side", lambda case=case: check_rows(case)))

    def strips_against_exact():
        strips = exact = 0
        for case in lattices:
            best = exact_count(polygon(case["outline"]), case["step"])
            assert case["count"] <= best, f"{case['count']} squares where {best} are the most: {case['outline']}"
            strips += case["count"]
            exact += best
        print(f"# strips {strips}, at best {exact}")
        assert exact > 100 and strips >= 0.97 * exact, f"{strips} of {exact}"

    checks.append(("strip cutting against the best packing", strips_against_exact))
    return tap.run(checks)


if __name__ == "__main__":
    sys.exit(main())
