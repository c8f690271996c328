"""Builds the surfaces that the core's ground is compared on, and answers them with other libraries.

Run in the environment of tests/requirements.txt:

    python tests/peers/make_ground.py

It writes tests/peers/ground_cases.json beside itself. Surfaces: SciPy's Delaunay triangulation (Qhull's) of the survey of
Davis (1973) and of lot-sized windows of a real terrain grid (`dem.py`). Contours: Matplotlib's contours of a triangulation
(its Delaunay triangulation is Qhull's), on the survey of Davis (1973) and on random spots. Breaklines:
Shapely parts the lines where they cross, and Triangle (Shewchuk) makes the constrained Delaunay
triangulation; the lines lie on a plane, so that they agree where they cross, and the spots do not.
"""

import csv
import json
import math
import pathlib
import random

import matplotlib
import numpy as np
import scipy
import shapely
import triangle
from matplotlib import _tri
from matplotlib.tri import Triangulation
from scipy.interpolate import LinearNDInterpolator
from scipy.spatial import Delaunay
from shapely.geometry import LineString, Point
from shapely.ops import unary_union

import dem

SEED = 4_077
TERRAINS = 24
BROKEN = 40
PLACES = 60
FILE = pathlib.Path(__file__).with_name("ground_cases.json")
SPOTS = pathlib.Path(__file__).parent.parent / "reference" / "data" / "davis_1973_spots.csv"


def davis():
    """The 52 spots, feet."""
    with SPOTS.open() as file:
        rows = csv.DictReader(line for line in file if not line.startswith("#"))
        return [[50.0 * float(row["x"]), 50.0 * float(row["y"]), float(row["z"])] for row in rows]


def surface(spots, rng):
    """What SciPy makes of spots: its triangles, their areas in plan and in space, the volume above the lowest spot, and
    the height of places all over it and of some beyond."""
    spots = np.asarray(spots)
    made = Delaunay(spots[:, :2])
    corners = spots[made.simplices]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    areas = np.abs(normals[:, 2]) / 2
    lowest = spots[:, 2].min()
    at = LinearNDInterpolator(made, spots[:, 2])
    (x0, y0), (x1, y1) = spots[:, :2].min(axis=0), spots[:, :2].max(axis=0)
    margin = 0.02 * (x1 - x0)
    places, outside = [], []
    while len(places) < PLACES:
        x, y = rng.uniform(x0 - margin, x1 + margin), rng.uniform(y0 - margin, y1 + margin)
        z = float(at(x, y))
        if math.isnan(z):
            outside.append([x, y])
        else:
            places.append([x, y, z])
    return {
        "spots": spots.tolist(),
        "triangles": len(made.simplices),
        "plan_area": float(areas.sum()),
        "surface_area": float(np.linalg.norm(normals, axis=1).sum() / 2),
        "lowest": float(lowest),
        "volume": float((areas * (corners[:, :, 2].mean(axis=1) - lowest)).sum()),
        "heights": places,
        "outside": outside,
    }


def windows():
    """The windows of the terrain, to a tenth of a millimetre."""
    return [dem.spots(row, column).round(4) for row, column in dem.WINDOWS]


def contour_lengths(spots, interval):
    """The length of every contour, by level."""
    x, y, z = np.array(spots).T
    tri = Triangulation(x, y)
    generator = _tri.TriContourGenerator(tri.get_cpp_triangulation(), z)
    lengths = []
    for level in range(math.ceil(z.min() / interval), math.floor(z.max() / interval) + 1):
        lines = generator.create_contour(level * interval)
        # A list of lines, or lines beside their codes, as the version has it.
        lines = lines[0] if isinstance(lines, tuple) else lines
        steps = (np.diff(line, axis=0) for line in lines)
        lengths.append([level, float(sum(np.hypot(*step.T).sum() for step in steps))])
    return lengths


def terrain(rng):
    spots = [
        [round(rng.uniform(-30, 30), 4), round(rng.uniform(-30, 30), 4), round(rng.uniform(98, 104), 4)]
        for _ in range(rng.randint(6, 60))
    ]
    interval = rng.choice([0.25, 0.3048, 0.5, 1.0])
    return {"spots": spots, "interval": interval, "lengths": contour_lengths(spots, interval)}


def plane(x, y):
    return 100 + 0.06 * x - 0.03 * y


def apart(spots, lines):
    """Whether no two things stand so near that tolerances decide."""
    points = [Point(x, y) for x, y, _ in spots]
    strings = [LineString([(x, y) for x, y, _ in line]) for line in lines]
    ends = [Point(x, y) for line in lines for x, y, _ in line]
    near = 0.02
    alone = all(a.distance(b) > near for i, a in enumerate(points + ends) for b in (points + ends)[:i])
    return alone and all(p.distance(s) > near for p in points for s in strings)


def noded(spots, lines):
    """Vertices, heights and segments of the lines parted where they cross."""
    vertices, heights = [[x, y] for x, y, _ in spots], [z for *_, z in spots]
    index, segments = {}, []

    def node(x, y):
        key = (round(x, 7), round(y, 7))
        if key not in index:
            index[key] = len(vertices)
            vertices.append([x, y])
            heights.append(plane(x, y))
        return index[key]

    union = unary_union([LineString([(x, y) for x, y, _ in line]) for line in lines])
    for part in shapely.get_parts(union):
        corners = list(part.coords)
        segments += [[node(*a), node(*b)] for a, b in zip(corners, corners[1:])]
    return np.array(vertices), np.array(heights), np.array(segments)


def flattest(vertices, faces):
    """The least height of any triangle."""
    a, b, c = (vertices[faces[:, k]] for k in range(3))
    twice = np.abs(np.cross(np.c_[b - a, np.zeros(len(a))], np.c_[c - a, np.zeros(len(a))])[:, 2])
    longest = np.max([np.hypot(*(p - q).T) for p, q in ((a, b), (b, c), (c, a))], axis=0)
    return float((twice / longest).min())


def broken(rng):
    """Spots, lines that cross, and what Triangle makes of them."""
    while True:
        spots = [
            [round(rng.uniform(-30, 30), 4), round(rng.uniform(-30, 30), 4), round(rng.uniform(97, 103), 4)]
            for _ in range(rng.randint(4, 30))
        ]
        lines = []
        for _ in range(rng.randint(1, 5)):
            corners = [(round(rng.uniform(-30, 30), 4), round(rng.uniform(-30, 30), 4)) for _ in range(rng.randint(2, 4))]
            lines.append([[x, y, plane(x, y)] for x, y in corners])
        if not apart(spots, lines):
            continue
        vertices, heights, segments = noded(spots, lines)
        made = triangle.triangulate({"vertices": vertices, "segments": segments}, "pc")
        faces = made["triangles"]
        # No vertex was added, and none of the triangles is so flat that a millimetre decides.
        if len(made["vertices"]) == len(vertices) and flattest(vertices, faces) > 0.01:
            break
    corners = np.c_[vertices, heights][faces]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    samples = []
    while len(samples) < 25:
        # Somewhere in a random triangle, away from its edges.
        k = rng.randrange(len(faces))
        shares = np.array([rng.uniform(0.1, 1.0) for _ in range(3)])
        x, y, z = (corners[k] * (shares / shares.sum())[:, None]).sum(axis=0)
        samples.append([float(x), float(y), float(z)])
    return {
        "spots": spots,
        "lines": lines,
        "triangles": len(faces),
        "plan_area": float(np.abs(normals[:, 2]).sum() / 2),
        "surface_area": float(np.linalg.norm(normals, axis=1).sum() / 2),
        "heights": samples,
    }


def build():
    rng = random.Random(SEED)
    survey = davis()
    # Of its own seed, so that the rest stays what it is.
    places = random.Random(SEED + 1)
    return {
        "source": f"matplotlib {matplotlib.__version__}, triangle {triangle.__version__}, scipy {scipy.__version__}, "
        f"shapely {shapely.__version__}, GEOS {shapely.geos_version_string}",
        "davis": {"interval": 10.0, "lengths": contour_lengths(survey, 10.0)},
        "surfaces": [surface(spots, places) for spots in [survey, *windows()]],
        "terrains": [terrain(rng) for _ in range(TERRAINS)],
        "broken": [broken(rng) for _ in range(BROKEN)],
    }


def main():
    cases = build()
    lines = [f'"source":{json.dumps(cases["source"])}', f'"davis":{json.dumps(cases["davis"])}']
    for name in ("surfaces", "terrains", "broken"):
        rows = ",\n".join(json.dumps(case, separators=(",", ":")) for case in cases[name])
        lines.append(f'"{name}":[\n{rows}\n]')
    FILE.write_text("{" + ",\n".join(lines) + "}\n", encoding="utf-8")
    print(f"{FILE.name}: {FILE.stat().st_size / 1000:.0f} kB, {cases['source']}")


if __name__ == "__main__":
    main()
