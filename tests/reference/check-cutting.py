#!/usr/bin/python3
"""Works out again, with Shapely, what is left of a scrap under its patches and what
came back of it when it was cut out.

Usage: check-cutting.py EMITTER SEED CASES; prints TAP.
"""
import json
import os
import subprocess
import sys

from shapely.geometry import Polygon
from shapely.ops import unary_union

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), ".."))
import tap  # noqa: E402

AREA = 0.05     # mm2: a grid of 1e-7 mm, outlines of some metres, and slivers under 0.01 mm2 that are left out
SLIT = 20.0     # mm2: slits are 0.02 mm wide, and no scrap is wider than a metre


def polygon(rings):
    return Polygon(rings[0], rings[1:])


def near(got, expected, tolerance, what):
    assert abs(got - expected) <= tolerance, f"{what}: {got} where {expected} is expected"


def parts(shape):
    """Polygons of a result, slivers left out as the program does."""
    return [p for p in getattr(shape, "geoms", [shape]) if p.area >= 0.01]


def cuts_of(case):
    return unary_union([polygon(c) for c in case["cuts"]])


def kept_out(case):
    return unary_union([polygon(z["outline"]) for z in case["zones"] if not z["allowance_only"]])


def check_zones(case):
    """Zones are clipped to the scrap."""
    for zone in case["zones"]:
        near(polygon(zone["outline"]).difference(polygon(case["outline"])).area, 0.0, AREA, "zone beside the scrap")


def check_cloth(case):
    expected = polygon(case["outline"]).difference(kept_out(case)).difference(cuts_of(case))
    got = unary_union([polygon(p) for p in case["cloth"]])
    near(got.symmetric_difference(expected).area, 0.0, AREA, "cloth that is left")
    near(sum(polygon(p).area for p in case["cloth"]), expected.area, AREA, "pieces of cloth overlap")


def must_hold(piece, side):
    """A disc round the square fits: so does the square, whichever way it is turned."""
    return not piece.buffer(-side * 0.5 ** 0.5 - 1e-6).is_empty


def cannot_hold(piece, side):
    """Not even the disc within the square fits, or there is too little cloth."""
    return piece.area < side * side - 1e-6 or piece.buffer(-side / 2 + 1e-6).is_empty


def check_remains(case):
    side = case["square"]
    remains = [polygon(p) for p in case["remains"]]
    for piece in map(polygon, case["cloth"]):
        kept = any(piece.symmetric_difference(r).area < AREA for r in remains)
        assert not (must_hold(piece, side) and not kept), f"a piece of {piece.area} mm2 that holds the square is not told"
        assert not (cannot_hold(piece, side) and kept), f"a piece of {piece.area} mm2 cannot hold the square"


def check_offcuts(case):
    outline, cuts = polygon(case["outline"]), cuts_of(case)
    offcuts = [polygon(o["outline"]) for o in case["offcuts"]]
    pieces = parts(outline.difference(cuts))
    for offcut in offcuts:
        assert offcut.is_valid and not offcut.interiors, "an offcut is not simple"
        near(offcut.difference(outline).area + offcut.intersection(cuts).area, 0.0, AREA, "an offcut beside the cloth that was left")
        assert any(abs(p.area - offcut.area) < (SLIT if p.interiors else AREA) and p.intersection(offcut).area > 0.99 * p.area for p in pieces), \
            f"an offcut of {offcut.area} mm2 is no piece of the scrap"
    near(unary_union(offcuts).area, sum(o.area for o in offcuts), AREA, "offcuts overlap")
    near(outline.intersection(cuts).area + sum(o.area for o in offcuts) + case["waste"], outline.area, 2 * AREA, "cut shapes, offcuts and waste")


def check_which_come_back(case):
    """By the good cloth of each piece: with its flaws taken out."""
    outline, cuts, bad, side = polygon(case["outline"]), cuts_of(case), kept_out(case), case["square"]
    offcuts = [polygon(o["outline"]) for o in case["offcuts"]]
    for piece in parts(outline.difference(cuts)):
        good = parts(piece.difference(bad))
        back = any(piece.intersection(o).area > 0.99 * piece.area for o in offcuts)
        if piece.interiors:
            continue    # a slit may part what holds the square
        assert not (any(must_hold(g, side) for g in good) and not back), f"a piece of {piece.area} mm2 did not come back"
        assert not (all(cannot_hold(g, side) for g in good) and back), f"a piece of {piece.area} mm2 came back"


def check_zones_come_along(case):
    for offcut in case["offcuts"]:
        shape = polygon(offcut["outline"])
        for kind in (False, True):
            expected = sum(polygon(z["outline"]).intersection(shape).area for z in case["zones"] if z["allowance_only"] == kind)
            got = sum(polygon(z["outline"]).area for z in offcut["zones"] if z["allowance_only"] == kind)
            near(got, expected, 4 * AREA, "zones of an offcut")


CHECKS = [
    ("zones lie on their scrap", check_zones),
    ("cloth left under the patches", check_cloth),
    ("which pieces of it are told as remains", check_remains),
    ("offcuts: simple, disjoint, pieces of the scrap; nothing is lost", check_offcuts),
    ("which pieces come back", check_which_come_back),
    ("offcuts keep their zones", check_zones_come_along),
]


def main():
    emitter, seed, cases = sys.argv[1:4]
    output = subprocess.run([emitter, seed, cases], check=True, capture_output=True, text=True).stdout
    read = [json.loads(line) for line in output.splitlines()]

    def over_all(check):
        assert len(read) == int(cases)
        for number, case in enumerate(read):
            try:
                check(case)
            except AssertionError as problem:
                raise AssertionError(f"case {number}: {problem}") from None

    return tap.run([(name, lambda check=check: over_all(check)) for name, check in CHECKS])


if __name__ == "__main__":
    sys.exit(main())
