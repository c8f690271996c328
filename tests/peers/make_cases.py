"""Builds the cases that the core's plane geometry is compared on, and answers them with GEOS.

Run in the environment of tests/requirements.txt:

    python tests/peers/make_cases.py

It writes tests/peers/shapely_cases.json beside itself. The outlines come from a fixed seed and are
rounded to a tenth of a millimetre, so the file is the same wherever it is made; check_shapely.py
fails when it is not.

A widened outline is answered as the union of the outline and GEOS's buffer of every edge by itself
(a narrowed one as the difference). GEOS's buffer of the whole outline first smooths dents of up to one
hundredth of the distance, which moved two of these thousand areas by 50 cm2.
"""

import json
import math
import pathlib
import random

import shapely
from shapely import affinity
from shapely.geometry import LineString, Polygon
from shapely.ops import unary_union

SEED = 20_318
COUNT = 200
DISTANCES = [0.2, 0.9, 2.5, -0.25, -0.8]
# Chords of a quarter circle: the sagitta at 2.5 m is 0.01 mm.
QUARTER = 256
FILE = pathlib.Path(__file__).with_name("shapely_cases.json")


def circle_points(radii, turn):
    step = math.tau / len(radii)
    return [
        (r * math.cos(turn + i * step), r * math.sin(turn + i * step))
        for i, r in enumerate(radii)
    ]


def star(rng):
    """Corners at random distances from a middle."""
    radii = [rng.uniform(1.5, 7.0) for _ in range(rng.randint(5, 24))]
    return circle_points(radii, rng.uniform(0, math.tau))


def bean(rng):
    """A smooth outline with one or two waists."""
    count = rng.randint(30, 90)
    base, waist, lean = rng.uniform(3, 6), rng.uniform(0.1, 0.45), rng.uniform(0, 0.3)
    phase = rng.uniform(0, math.tau)
    radii = []
    for i in range(count):
        angle = math.tau * i / count
        radii.append(base * (1 + waist * math.cos(2 * angle) + lean * math.cos(angle + phase)))
    return circle_points(radii, rng.uniform(0, math.tau))


def steps(rng):
    """An L, a T or a stair, turned."""
    runs = sorted(rng.uniform(1, 12) for _ in range(rng.randint(2, 4)))
    rises = sorted(rng.uniform(1, 12) for _ in range(len(runs)))
    points = [(0.0, 0.0), (runs[-1], 0.0)]
    height = 0.0
    for run, rise in zip(reversed(runs), rises):
        points += [(run, rise)]
        height = rise
        following = runs.index(run) - 1
        if following >= 0:
            points += [(runs[following], rise)]
    points += [(0.0, height)]
    return list(affinity.rotate(Polygon(points), rng.uniform(0, 360)).exterior.coords)[:-1]


def rounded(rng):
    """A rectangle with round corners, sometimes with a bay bitten out of one side."""
    w, h = rng.uniform(5, 12), rng.uniform(3, 6)
    r = rng.uniform(0.3, 1.4)
    shape = Polygon([(0, 0), (w, 0), (w, h), (0, h)]).buffer(-r).buffer(r, quad_segs=8)
    if rng.random() < 0.5:
        bay = shapely.Point(w * rng.uniform(0.35, 0.65), h).buffer(rng.uniform(0.6, 2.0), quad_segs=10)
        shape = shape.difference(bay)
    return list(affinity.rotate(shape, rng.uniform(0, 360)).exterior.coords)[:-1]


def outline(rng):
    """One simple outline; every third runs clockwise."""
    while True:
        points = rng.choice([star, bean, steps, rounded])(rng)
        east, north = rng.uniform(-40, 40), rng.uniform(-40, 40)
        ring = [(round(x + east, 4), round(y + north, 4)) for x, y in points]
        polygon = Polygon(ring)
        shortest = min(math.dist(a, b) for a, b in zip(ring, ring[1:] + ring[:1]))
        # The planner's door refuses points closer than a tenth of a millimetre.
        if polygon.is_valid and polygon.area > 1 and shortest > 0.001:
            break
    if polygon.exterior.is_ccw == (rng.random() < 1 / 3):
        ring.reverse()
    return ring


def widened(polygon, distance):
    """What is compared of a widened or narrowed area."""
    corners = polygon.exterior.coords
    edges = [LineString(pair) for pair in zip(corners, corners[1:])]
    strip = unary_union([edge.buffer(abs(distance), quad_segs=QUARTER) for edge in edges])
    shape = polygon.union(strip) if distance > 0 else polygon.difference(strip)
    parts = shapely.get_parts(shape)
    return {
        "distance": distance,
        "area": shape.area,
        "perimeter": shape.length,
        "parts": len(parts),
        "holes": sum(len(part.interiors) for part in parts),
    }


def build():
    rng = random.Random(SEED)
    rings = [outline(rng) for _ in range(COUNT)]
    cases = []
    for i, ring in enumerate(rings):
        polygon = Polygon(ring)
        other = Polygon(rings[(i + 1) % COUNT])
        # Brought together, then moved off by up to two diameters: half of the pairs overlap.
        middle, goal = other.centroid, polygon.centroid
        away = rng.uniform(0, 18)
        angle = rng.uniform(0, math.tau)
        shift = (
            round(goal.x - middle.x + away * math.cos(angle), 4),
            round(goal.y - middle.y + away * math.sin(angle), 4),
        )
        other = affinity.translate(other, *shift)
        case = {
            "ring": ring,
            "area": polygon.area,
            "perimeter": polygon.length,
            "centroid": [polygon.centroid.x, polygon.centroid.y],
            "widened": [widened(polygon, d) for d in DISTANCES],
            "shift": shift,
            "union": polygon.union(other).area,
            "intersection": polygon.intersection(other).area,
            "difference": polygon.difference(other).area,
            "apart": polygon.distance(other),
        }
        cases.append(case)
    return {
        "source": f"shapely {shapely.__version__}, GEOS {shapely.geos_version_string}",
        "cases": cases,
    }


def main():
    lines = build()
    cases = ",\n".join(json.dumps(case, separators=(",", ":")) for case in lines["cases"])
    source = json.dumps(lines["source"])
    FILE.write_text(f'{{"source":{source},"cases":[\n{cases}\n]}}\n', encoding="utf-8")
    print(f"{FILE.name}: {len(lines['cases'])} cases, {FILE.stat().st_size / 1000:.0f} kB, {lines['source']}")


if __name__ == "__main__":
    main()
