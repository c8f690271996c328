"""The questions of `crate/core/benches/peers`, asked of GEOS (by Shapely), Clipper, SciPy, Triangle and NumPy grids.

Reads one line of JSON for each question and prints one for each answer: who gives it, the median of milliseconds, and the
answer. What is called "reference" is taken for the truth: worked out by a closed formula, by another library exactly, or
by the finest that it can do, without counting the time.

Not a check: `cargo xtask bench --only peers` runs it.
"""

import json
import math
import statistics
import sys
import time

import numpy as np
import pyclipper
import scipy.interpolate
import scipy.ndimage
import scipy.spatial
import shapely
import triangle
from shapely.geometry import Polygon

GEOS = f"GEOS {shapely.geos_version_string} (Shapely)"
CLIPPER = f"Clipper (pyclipper {pyclipper.__version__})"
SCIPY = f"SciPy {scipy.__version__}"
NUMPY = f"NumPy {np.__version__}"
TRIANGLE = "Triangle"

# A question is asked again and again for so long, seconds, but not more often than the second figure.
LONG_ENOUGH, MOST_ROUNDS = 0.4, 400
# Whole numbers to the meter for Clipper: a hundredth of a millimeter.
SCALE = 1e5
# Lots with more obstacles than this are too long a wait for a union of all sums.
MOST_OBSTACLES = 100
# Cells of the grids, meters; and of the one that is taken for the truth.
CELL, FINE_CELL = 0.05, 0.01


def median_ms(once):
    times, begun = [], time.perf_counter()
    while not times or (len(times) < MOST_ROUNDS and time.perf_counter() - begun < LONG_ENOUGH):
        start = time.perf_counter()
        once()
        times.append((time.perf_counter() - start) * 1e3)
    return statistics.median(times)


def quarter(distance, tolerance):
    """Segments to a quarter turn, so that chords lie within the tolerance of the arc."""
    return max(1, math.ceil(math.pi / 4 / math.acos(1 - tolerance / abs(distance))))


def whole(ring):
    return [(round(x * SCALE), round(y * SCALE)) for x, y in ring]


def clipped_area(paths):
    # Signed: holes turn the other way.
    return abs(sum(pyclipper.Area(path) for path in paths)) / SCALE**2


def offset(task, tolerance):
    figure, distance = Polygon(task["ring"]), task["distance"]
    segments, path = quarter(distance, tolerance), whole(task["ring"])

    def clipper():
        offsetter = pyclipper.PyclipperOffset(2.0, tolerance * SCALE)
        offsetter.AddPath(path, pyclipper.JT_ROUND, pyclipper.ET_CLOSEDPOLYGON)
        return clipped_area(offsetter.Execute(distance * SCALE))

    yield "reference", None, figure.buffer(distance, quad_segs=4096).area
    yield GEOS, lambda: figure.buffer(distance, quad_segs=segments).area, None
    yield CLIPPER, clipper, None


def union(task, _tolerance):
    a, b = Polygon(task["a"]), Polygon(task["b"])
    one, other = whole(task["a"]), whole(task["b"])

    def clipper():
        overlay = pyclipper.Pyclipper()
        overlay.AddPath(one, pyclipper.PT_SUBJECT)
        overlay.AddPath(other, pyclipper.PT_CLIP)
        filled = pyclipper.PFT_NONZERO
        return clipped_area(overlay.Execute(pyclipper.CT_UNION, filled, filled))

    # Areas of the two less that of the part that both have: what is taken together is not asked for.
    yield "reference", None, a.area + b.area - a.intersection(b).area
    yield GEOS, lambda: a.union(b).area, None
    yield CLIPPER, clipper, None


def distance(task, _tolerance):
    a, b = Polygon(task["a"]), Polygon(task["b"])
    corners = [np.array(task["a"]), np.array(task["b"])]
    # Every corner of the one against the whole of the other, both ways: figures that lie apart are nearest at a corner.
    nearest = min(shapely.distance(shapely.points(corners[0]), b).min(), shapely.distance(shapely.points(corners[1]), a).min())
    yield "reference", None, nearest
    yield GEOS, lambda: shapely.distance(a, b), None


def sums(pieces, ring):
    """The hull of all sums of a triangle's corners and a convex figure's, for every triangle."""
    pairs = pieces[:, :, None, :] + ring[None, None, :, :]
    return shapely.convex_hull(shapely.multipoints(pairs.reshape(len(pieces), -1, 2)))


def clear_ground(task, tolerance, fine=False):
    """Shapely has no sum of two figures: the shell, widened and reflected, is cut into triangles, each summed with each
    convex obstacle and each edge of the lot by the hull of the sums of their corners, and one union of all is taken out."""
    if len(task["obstacles"]) > MOST_OBSTACLES:
        return
    figure, lot = Polygon(task["figure"]), np.array(task["lot"])

    def barred(tolerance):
        def held(apart):
            grown = figure.buffer(apart, quad_segs=quarter(apart, tolerance))
            parts = shapely.get_parts(shapely.constrained_delaunay_triangles(grown))
            return -np.array([np.array(it.exterior.coords)[:3] for it in parts])

        apart = {it: held(it) for it in {task["lot_apart"], *(it["apart"] for it in task["obstacles"])}}
        sides = [sums(apart[task["lot_apart"]], np.array(edge)) for edge in zip(lot, np.roll(lot, -1, axis=0))]
        return sides + [sums(apart[it["apart"]], np.array(it["ring"])) for it in task["obstacles"]]

    def area(tolerance):
        return Polygon(lot).difference(shapely.union_all(np.concatenate(barred(tolerance)))).area

    if len(task["obstacles"]) <= 10:
        yield "reference", None, area(tolerance / 20)
    yield GEOS, lambda: area(tolerance), None


def triangles(task, _tolerance):
    spots = np.array(task["spots"])
    plan = np.ascontiguousarray(spots[:, :2])
    # Euler: twice the spots less two and less those on the hull (none of these grounds has more on its edges).
    yield "reference", None, 2 * len(plan) - 2 - len(scipy.spatial.ConvexHull(plan).vertices)
    yield SCIPY, lambda: len(scipy.spatial.Delaunay(plan).simplices), None
    yield TRIANGLE, lambda: len(triangle.delaunay(plan)), None


def volume(task, _tolerance):
    spots, level = np.array(task["spots"]), task["level"]
    plan = scipy.spatial.Delaunay(spots[:, :2])

    def prisms():
        a, b, c = (spots[plan.simplices[:, i]] for i in range(3))
        (ux, uy), (vx, vy) = (b - a)[:, :2].T, (c - a)[:, :2].T
        return float(np.sum(np.abs(ux * vy - uy * vx) / 6 * (a[:, 2] + b[:, 2] + c[:, 2] - 3 * level)))

    def grid():
        (low_x, low_y), (high_x, high_y) = spots[:, :2].min(axis=0), spots[:, :2].max(axis=0)
        x, y = np.meshgrid(np.arange(low_x, high_x, 0.25) + 0.125, np.arange(low_y, high_y, 0.25) + 0.125)
        heights = scipy.interpolate.LinearNDInterpolator(plan, spots[:, 2])(x, y)
        return float(np.nansum(heights - level) * 0.25**2)

    # Each prism added without rounding.
    a, b, c = (spots[plan.simplices[:, i]] for i in range(3))
    u, v = (b - a)[:, :2], (c - a)[:, :2]
    each = np.abs(u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]) / 6 * ((a[:, 2] - level) + (b[:, 2] - level) + (c[:, 2] - level))
    yield "reference", None, math.fsum(each)
    yield f"{NUMPY} prisms", prisms, None
    yield f"{SCIPY} grid of 0.25 m", grid, None


def dig(task, _tolerance):
    floor, bottom, run = Polygon(task["floor"]), task["bottom"], task["run"]
    spots, level = np.array(task["spots"]), task["level"]
    highest = spots[:, 2].max() if len(spots) else level
    heights = scipy.interpolate.LinearNDInterpolator(spots[:, :2], spots[:, 2]) if len(spots) else None
    reach = (highest - bottom) * run

    def cells(cell):
        low_x, low_y, high_x, high_y = floor.buffer(reach + 2 * cell).bounds
        return np.meshgrid(np.arange(low_x, high_x, cell) + cell / 2, np.arange(low_y, high_y, cell) + cell / 2)

    def cut(x, y, away, cell):
        ground = heights(x, y) if heights else level
        return float(np.nansum(np.maximum(ground - bottom - away / run, 0.0)) * cell**2)

    def spread():
        x, y = cells(CELL)
        away = scipy.ndimage.distance_transform_edt(~shapely.contains_xy(floor, x, y)) * CELL
        # From the middles of cells on the floor, half a cell inside its edge on the average.
        return cut(x, y, np.maximum(away - CELL / 2, 0.0), CELL)

    def measured(cell):
        x, y = cells(cell)
        return cut(x, y, shapely.distance(shapely.points(x, y), floor), cell)

    if len(spots):
        shapely.prepare(floor)
        yield "reference", None, measured(FINE_CELL)
    else:
        # Steiner's formula for what a convex figure widened all round covers, summed over the depth.
        deep = level - bottom
        corners = run**2 * math.pi * deep**3 / 3
        assert floor.convex_hull.area - floor.area < 1e-9, "the formula is for convex floors"
        yield "reference", None, floor.area * deep + floor.length * run * deep**2 / 2 + corners
    yield f"{NUMPY}, {SCIPY} grid of {CELL} m", spread, None
    yield f"{NUMPY}, {GEOS} grid of {CELL} m", lambda: measured(CELL), None


ASKED = {
    "offset": offset,
    "union": union,
    "distance": distance,
    "clear-ground": clear_ground,
    "triangles": triangles,
    "volume": volume,
    "dig": dig,
}


def main():
    for line in sys.stdin:
        asked = json.loads(line)
        task = asked["task"]
        for who, once, answer in ASKED[task["ask"]](task, asked["tolerance"]):
            taken = None if once is None else median_ms(once)
            answer = once() if once is not None else answer
            print(json.dumps({"name": task["name"], "who": who, "ms": taken, "answer": float(answer)}), flush=True)


main()
