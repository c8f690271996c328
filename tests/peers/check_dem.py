"""Digs in a real terrain against SciPy and Shapely.

The terrain is a window of the Jacksboro fault, brought to the size of a lot (`dem.py`).

SciPy triangulates the same spots. Upright digs are then exact prisms: Shapely cuts every triangle along the widened
outline, and the plane over each piece is integrated in closed form. Sloped digs are sums over squares of 2 cm of the
height of the terrain over the floor and the sides that rise from it. The command line must agree within 0.05 %.

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


def site(ground: np.ndarray, coping: float, heading: float, slope: float) -> dict:
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
        "works": {"dig": {"over_dig": OVER_DIG, "base_thickness": BASE, "side_slope": slope}},
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


def sloped(ground: np.ndarray, floor: float, plan: shapely.Polygon, slope: float) -> float:
    cell, reach = 0.02, 12.0
    steps = np.arange(-reach + cell / 2, reach, cell)
    surface = LinearNDInterpolator(Delaunay(ground[:, :2]), ground[:, 2])
    total = 0.0
    for y in np.array_split(steps, 12):
        xs, ys = np.meshgrid(steps, y)
        away = shapely.distance(plan, shapely.points(xs, ys))
        bottom = floor + np.maximum(away - OVER_DIG, 0.0) / slope
        total += np.maximum(surface(xs, ys) - bottom, 0.0).sum() * cell * cell
    return total


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
        for slope in (0.0, 0.75):
            ours = dug(site(ground, coping, heading, slope))
            theirs = sloped(ground, floor, plan, slope) if slope else upright(ground, floor, plan)
            off = ours / theirs - 1.0
            good = abs(off) <= TOLERANCE
            failures += not good
            print(f"{'ok  ' if good else 'FAIL'} window {row}, {column}, slope {slope}: {ours:.3f} m3, {theirs:.3f} ({off:+.1e})")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
