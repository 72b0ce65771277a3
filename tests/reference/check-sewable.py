#!/usr/bin/python3
"""Can a layout be sewn with straight seams and no set-in corner? Two tests that know nothing of one another, nor of our trees:

- top down: some line along an edge parts all patches into two heaps, and so on with each heap, until each is one patch;
- by the graph of seams: a seam that ends on another must be sewn before it; what has no order is a cycle. It adapts, from memory, the
  acyclic seam hypergraph of Leake et al. (SIGGRAPH 2021), who treat foundation piecing.

They must agree on random layouts of both kinds, and find all panels of emit-proposals sewable.

Usage: check-sewable.py EMITTER SEED CASES; prints TAP.
"""
import json
import math
import os
import random
import subprocess
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), ".."))
import tap  # noqa: E402

NEAR = 1e-5


# --- convex polygons as lists of corners ---

def side(line, p):
    nx, ny, c = line
    return nx * p[0] + ny * p[1] - c


def line_of(a, b):
    length = math.hypot(b[0] - a[0], b[1] - a[1])
    nx, ny = (b[1] - a[1]) / length, (a[0] - b[0]) / length
    return nx, ny, nx * a[0] + ny * a[1]


def edges(patch):
    return [(a, b) for a, b in zip(patch, patch[1:] + patch[:1]) if math.hypot(b[0] - a[0], b[1] - a[1]) > NEAR]


def clip(patch, line):
    kept = []
    for a, b in zip(patch, patch[1:] + patch[:1]):
        s, t = side(line, a), side(line, b)
        if s <= 0:
            kept.append(a)
        if (s < 0 < t) or (t < 0 < s):
            kept.append((a[0] + (b[0] - a[0]) * s / (s - t), a[1] + (b[1] - a[1]) * s / (s - t)))
    return kept


# --- top down ---

def parts_all(line, patches):
    """The two heaps, when no patch lies on both sides and neither heap is empty."""
    heaps = [], []
    for patch in patches:
        far = [side(line, p) for p in patch]
        if max(far) > NEAR and min(far) < -NEAR:
            return None
        heaps[max(far) > NEAR].append(patch)
    return heaps if heaps[0] and heaps[1] else None


def has_tree(patches):
    waiting = [patches]
    while waiting:
        heap = waiting.pop()
        if len(heap) == 1:
            continue
        for a, b in (edge for patch in heap for edge in edges(patch)):
            halves = parts_all(line_of(a, b), heap)
            if halves:
                break
        else:
            return False
        waiting += halves
    return True


# --- by the graph of seams ---

def joined(spans):
    """Stretches of one line that touch are one seam."""
    done = []
    for from_, to in sorted(spans):
        if done and from_ <= done[-1][1] + NEAR:
            done[-1][1] = max(done[-1][1], to)
        else:
            done.append([from_, to])
    return done


def all_seams(patches, outline):
    lines = []
    for a, b in (edge for patch in patches for edge in edges(patch)):
        if any(abs(side(line_of(*o), a)) < NEAR and abs(side(line_of(*o), b)) < NEAR for o in edges(outline)):
            continue
        for line, spans in lines:
            if abs(side(line, a)) < NEAR and abs(side(line, b)) < NEAR:
                break
        else:
            line, spans = line_of(a, b), []
            lines.append((line, spans))
        spans.append(sorted(-line[1] * p[0] + line[0] * p[1] for p in (a, b)))
    return [(line, span) for line, spans in lines for span in joined(spans)]


def ends_on(seam, p, seams, outline):
    """Which seam catches this end: an index, None for the outline, and -1 where nothing straight goes through."""
    if any(abs(side(line_of(*o), p)) < NEAR for o in edges(outline)):
        return None
    for i, (line, (from_, to)) in enumerate(seams):
        at = -line[1] * p[0] + line[0] * p[1]
        if seams[i] is not seam and abs(side(line, p)) < NEAR and from_ + NEAR < at < to - NEAR:
            return i
    return -1


def has_order(patches, outline):
    seams = all_seams(patches, outline)
    after = []
    for seam in seams:
        (nx, ny, c), span = seam
        caught = [ends_on(seam, (nx * c - ny * t, ny * c + nx * t), seams, outline) for t in span]
        if -1 in caught:
            return False
        after.append({i for i in caught if i is not None})
    left = set(range(len(seams)))
    while left:
        ready = {i for i in left if not after[i] & left}
        if not ready:
            return False
        left -= ready
    return True


# --- layouts by chance ---

def split_at_random(patches, rand, n):
    """Parts some patch in two, n times, by lines in any direction."""
    patches = list(patches)
    for _ in range(n):
        i = rand.randrange(len(patches))
        corners = patches[i]
        x, y = (sum(p[k] for p in corners) / len(corners) for k in (0, 1))
        angle = rand.choice((0, 90, rand.uniform(0, 180))) * math.pi / 180
        line = (math.cos(angle), math.sin(angle), math.cos(angle) * x + math.sin(angle) * y + rand.uniform(-8, 8))
        two = clip(corners, line), clip(corners, tuple(-v for v in line))
        if all(len(half) >= 3 and min(math.hypot(b[0] - a[0], b[1] - a[1]) for a, b in zip(half, half[1:] + half[:1])) > 2 for half in two):
            patches[i:i + 1] = two
    return patches


def sheared(patches, rand):
    k = rand.uniform(-0.4, 0.4)
    return [[(x + k * y, y) for x, y in patch] for patch in patches]


def box(x, y, to_x, to_y):
    return [(x, y), (to_x, y), (to_x, to_y), (x, to_y)]


def pinwheel(rand):
    a, b = rand.uniform(60, 120), rand.uniform(180, 240)
    c, d = rand.uniform(60, 120), rand.uniform(180, 240)
    return [box(0, 0, b, c), box(b, 0, 300, d), box(a, d, 300, 300), box(0, c, a, 300), box(a, c, b, d)]


def star(rand):
    """Three patches that meet in one point with no straight line through it."""
    p, q, r, s = (rand.uniform(100, 200), rand.uniform(100, 200)), (rand.uniform(40, 260), 0), (0, 300), (300, 300)
    return [[q, (300, 0), s, p], [s, r, p], [r, (0, 0), q, p]]


def grid(rand):
    n, m = rand.randint(2, 4), rand.randint(2, 4)
    return [box(300 * i / n, 300 * k / m, 300 * (i + 1) / n, 300 * (k + 1) / m) for i in range(n) for k in range(m)]


def check_random(rand, start, sewable):
    patches = sheared(split_at_random(start, rand, rand.randint(0, 14)), rand)
    left = min(p[0] for patch in patches for p in patch if abs(p[1] - 300) < NEAR)
    outline = [(0, 0), (300, 0), (left + 300, 300), (left, 300)]
    assert has_tree(patches) == sewable, f"top down says {not sewable}: {patches}"
    assert has_order(patches, outline) == sewable, f"the graph of seams says {not sewable}: {patches}"


def main():
    emitter, seed, cases = sys.argv[1:4]
    output = subprocess.run([emitter, seed, cases], check=True, capture_output=True, text=True).stdout
    read = [json.loads(line) for line in output.splitlines()]
    rand = random.Random(int(seed))
    checks = []

    def proposed(case):
        for panel in case["panels"]:
            patches = [[tuple(p) for p in patch["region"]] for patch in panel["patches"]]
            outline = [tuple(p) for p in panel["outline"]]
            assert has_tree(patches), "no tree found top down"
            assert has_order(patches, outline), "the graph of seams has a cycle"

    for number, case in enumerate((case for case in read if case["kind"] != "lattice"), 1):
        checks.append((f"{case['kind']} {number} can be sewn", lambda case=case: proposed(case)))
    for name, start, sewable in (("one patch parted at random", lambda rand: [box(0, 0, 300, 300)], True), ("a grid parted further", grid, True),
                                 ("a pinwheel parted further", pinwheel, False), ("a star of three parted further", star, False)):
        checks.append((f"{name}: both say {'yes' if sewable else 'no'}, 60 times",
                       lambda start=start, sewable=sewable: [check_random(rand, start(rand), sewable) for _ in range(60)]))
    return tap.run(checks)


if __name__ == "__main__":
    sys.exit(main())
