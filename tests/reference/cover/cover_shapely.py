"""Random spans of laid wood on a stretch of wire, and what shapely makes of them.

Writes cover_shapely.json beside itself. Each span is a box of height 1, so that lengths are areas and the
work is shapely's own: filled = union, gaps = row minus union, overlaps = union of the pairwise intersections.

    python3 -m venv /somewhere/outside && /somewhere/outside/bin/pip install shapely==2.2.0
    /somewhere/outside/bin/python tests/reference/cover/cover_shapely.py
"""

import json
import pathlib
import platform
import random

import shapely
from shapely.geometry import box
from shapely.ops import unary_union

SEED = 20_250
CASES = 400
# Shorter stretches are dropped by the program; none may lie so near that limit that rounding decides.
LEAST, MARGIN = 0.5, 1e-3


def bar(a, b):
    return box(min(a, b), 0.0, max(a, b), 1.0)


def parts(shape):
    """The separate stretches of a shape, from left to right."""
    pieces = getattr(shape, "geoms", [shape])
    out = []
    for piece in pieces:
        if piece.geom_type == "Polygon" and piece.area > 0.0:
            x0, _, x1, _ = piece.bounds
            out.append([x0, x1])
    return sorted(out)


def place(rng, kind, lo, hi):
    if kind == "whole":
        return float(rng.randint(int(lo), int(hi)))
    if kind == "coarse":  # many shared edges
        return float(rng.randrange(int(lo), int(hi), 250))
    return rng.uniform(lo, hi)


def draw(rng):
    kind = rng.choice(["whole", "coarse", "real", "mixed"])
    of = lambda: rng.choice(["whole", "coarse", "real"]) if kind == "mixed" else kind
    row = sorted([place(rng, of(), -2000, 20000), place(rng, of(), -2000, 20000)])
    spans = []
    for _ in range(rng.choice([0, 1, 2, 3, 5, 8, 13, 30])):
        a = place(rng, of(), -3000, 21000)
        shape = rng.random()
        if shape < 0.6:
            b = a + rng.choice([-1, 1]) * rng.uniform(1.0, 3500.0)
            b = b if of() == "real" else float(round(b))
        elif shape < 0.7:  # the same span again
            a, b = rng.choice(spans) if spans else (a, a + 1500.0)
        elif shape < 0.8:  # edge to edge with another
            a = rng.choice(spans)[1] if spans else a
            b = a + rng.uniform(1.0, 2000.0)
        elif shape < 0.9:  # short
            b = a + rng.uniform(0.0, 3.0)
        else:
            b = place(rng, of(), -3000, 21000)
        spans.append([min(a, b), max(a, b)])
    return row, spans


def solve(row, spans):
    wall = bar(*row)
    wood = [bar(*s) for s in spans if s[1] > s[0]]
    inside = [w.intersection(wall) for w in wood]
    union = unary_union([w for w in inside if w.area > 0.0])
    pairs = [
        a.intersection(b)
        for i, a in enumerate(inside)
        for b in inside[:i]
    ]
    twice = unary_union([p for p in pairs if p.area > 0.0])
    gaps = parts(wall.difference(union)) if row[1] > row[0] else []
    return {
        "row": row,
        "spans": spans,
        "owed": row[1] - row[0],
        "filled": union.area,
        "gaps": gaps,
        "overlaps": parts(twice),
    }


def clear(case):
    lengths = [b - a for a, b in case["gaps"] + case["overlaps"]]
    return all(abs(length - LEAST) > MARGIN for length in lengths)


def main():
    rng = random.Random(SEED)
    cases = []
    while len(cases) < CASES:
        case = solve(*draw(rng))
        if clear(case):
            cases.append(case)
    versions = {
        "python": platform.python_version(),
        "shapely": shapely.__version__,
        "geos": shapely.geos_version_string,
        "seed": SEED,
    }
    print(versions)
    out = pathlib.Path(__file__).with_name("cover_shapely.json")
    lines = ",\n".join(json.dumps(c) for c in cases)
    out.write_text('{"made_with": %s,\n"cases": [\n%s\n]}\n' % (json.dumps(versions), lines))


if __name__ == "__main__":
    main()
