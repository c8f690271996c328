"""Digs in a real terrain against SciPy and Shapely.

The terrain is a window of the Jacksboro fault, brought to the size of a lot (`dem.py`).

SciPy triangulates the same spots. Upright digs are then exact prisms: Shapely cuts every triangle along the widened
outline, and the plane over each piece is integrated in closed form. Sloped digs are sums over squares of 2 cm of the
height of the terrain over the floor and the sides that rise from it; so are digs with a slope of its own to each side,
where a place `u` beyond one side and `v` beyond the next lies `hypot(u / s, v / t)` above the floor. The command line
must agree within 0.05 %.

Exits with 1 and says which dig differs when it does not.
"""

import json
import math
import os
import subprocess
import sys

import numpy as np
import shapely
from scipy.interpolate import LinearNDInterpolator
from scipy.spatial import Delaunay

from dem import APART, SIDE, WINDOWS, spots

BINARY = os.environ["BATTERBOARD_BIN"]
TOLERANCE = 5e-4

# A rectangular shell with a level floor: length, width, depth, metres. No wall thickness.
LENGTH, WIDTH, DEPTH = 9.0, 4.0, 1.5
OVER_DIG, BASE = 0.25, 0.1
# Run per unit of rise to each side, the shell's length lying ahead; these digs have no over-dig.
SIDES = {"ahead": 1.25, "left": 0.5, "behind": 0.75, "right": 1.0}


def site(ground: np.ndarray, coping: float, heading: float, dig: dict) -> dict:
    half = APART * SIDE / 2
    quarter = math.pi / 2
    courses = [
        {"kind": "side", "shape": {"line": {"bearing": quarter * i, "distance": 2 * half}}} for i in range(4)
    ]
    corners = [[-LENGTH / 2, -WIDTH / 2], [LENGTH / 2, -WIDTH / 2], [LENGTH / 2, WIDTH / 2], [-LENGTH / 2, WIDTH / 2]]
    shell = {
        "name": "Level", "outline": corners, "coping_width": 0.3, "waterline": 0.1, "wall_thickness": 0.0,
        "floor": [{"kind": "deep", "outline": corners, "depths": [DEPTH] * 4}],
    }  # fmt: skip
    return {
        "format": "batterboard-site",
        "version": 3,
        "name": "Terrain",
        "lot": {"courses": courses, "start": [-half, -half]},
        "ground": {"spots": {"spots": ground.tolist()}},
        "placement": {"shell": {"own": shell}, "at": [0.0, 0.0], "heading": heading, "coping_elevation": coping},
        "works": {"dig": {"base_thickness": BASE, **dig}},
    }


def dug(document: dict) -> float:
    command = [BINARY, "report", "-", "--json"]
    answer = subprocess.run(command, input=json.dumps(document), text=True, capture_output=True, check=True)
    quantities = json.loads(answer.stdout)["quantities"]
    return next(q["value"] for q in quantities if q["key"] == "bank-cut")


def outline(heading: float) -> shapely.Polygon:
    """The rectangle on the site: its length along the bearing."""
    along = np.array([math.sin(heading), math.cos(heading)])
    left = np.array([-along[1], along[0]])
    corners = [(1, 1), (-1, 1), (-1, -1), (1, -1)]
    return shapely.Polygon([a * LENGTH / 2 * along + b * WIDTH / 2 * left for a, b in corners])


def upright(ground: np.ndarray, floor: float, plan: shapely.Polygon) -> float:
    hole = plan.buffer(OVER_DIG, quad_segs=256)
    triangulation = Delaunay(ground[:, :2])
    volume = 0.0
    for corners in ground[triangulation.simplices]:
        triangle = shapely.Polygon(corners[:, :2])
        for piece in shapely.get_parts(hole.intersection(triangle)):
            if piece.area == 0.0:
                continue
            # The height of a plane over a figure's centroid, times its area.
            plane = np.linalg.solve(np.column_stack([corners[:, :2], np.ones(3)]), corners[:, 2])
            at = piece.centroid
            height = plane @ [at.x, at.y, 1.0] - floor
            assert height > 0.0, "the terrain lies above the floor everywhere"
            volume += piece.area * height
    return volume


def summed(ground: np.ndarray, bottom) -> float:
    """The terrain over a bottom, square by square."""
    cell, reach = 0.02, 12.0
    steps = np.arange(-reach + cell / 2, reach, cell)
    surface = LinearNDInterpolator(Delaunay(ground[:, :2]), ground[:, 2])
    total = 0.0
    for y in np.array_split(steps, 12):
        xs, ys = np.meshgrid(steps, y)
        depth = np.maximum(surface(xs, ys) - bottom(xs, ys), 0.0)
        assert depth[:, [0, -1]].max() == 0.0, "the dig ends within reach"
        total += depth.sum() * cell * cell
    return total


def sloped(ground: np.ndarray, floor: float, plan: shapely.Polygon, slope: float) -> float:
    def bottom(xs, ys):
        away = shapely.distance(plan, shapely.points(xs, ys))
        return floor + np.maximum(away - OVER_DIG, 0.0) / slope

    return summed(ground, bottom)


def by_side(ground: np.ndarray, floor: float, heading: float) -> float:
    def rise(place, half, ahead, behind):
        return np.maximum(place - half, 0.0) / SIDES[ahead] + np.maximum(-place - half, 0.0) / SIDES[behind]

    def bottom(xs, ys):
        along = xs * math.sin(heading) + ys * math.cos(heading)
        left = ys * math.sin(heading) - xs * math.cos(heading)
        return floor + np.hypot(
            rise(along, LENGTH / 2, "ahead", "behind"), rise(left, WIDTH / 2, "left", "right")
        )

    return summed(ground, bottom)


def main() -> int:
    failures = 0
    for number, (row, column) in enumerate(WINDOWS):
        ground = spots(row, column)
        # The floor a little below the lowest terrain near the shell, so that an upright dig is all in the ground.
        near = np.hypot(ground[:, 0], ground[:, 1]) < 9.0
        coping = ground[near, 2].min() - 0.1 + DEPTH + BASE
        heading = 0.4 + number
        plan = outline(heading)
        floor = coping - DEPTH - BASE
        sides = [{"side": side, "slope": slope} for side, slope in SIDES.items()]
        digs = [
            ("upright", {"over_dig": OVER_DIG, "side_slope": 0.0}, upright(ground, floor, plan)),
            ("slope 0.75", {"over_dig": OVER_DIG, "side_slope": 0.75}, sloped(ground, floor, plan, 0.75)),
            ("side by side", {"over_dig": 0.0, "sides": sides}, by_side(ground, floor, heading)),
        ]
        for name, settings, theirs in digs:
            ours = dug(site(ground, coping, heading, settings))
            off = ours / theirs - 1.0
            good = abs(off) <= TOLERANCE
            failures += not good
            print(f"{'ok  ' if good else 'FAIL'} window {row}, {column}, {name}: {ours:.3f} m3, {theirs:.3f} ({off:+.1e})")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
