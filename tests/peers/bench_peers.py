"""Clear ground at one heading, as Shapely has it: what it takes and what area comes out.

Reads scenes as `clear_ground_peers` prints them, one line of JSON each, and prints a line for each that it was asked: the
median of milliseconds for one heading, and the areas. Shapely has no sum of two figures: the shell, widened and reflected,
is cut into triangles, each summed with each convex obstacle and each edge of the lot by the hull of the sums of their
corners, and one union of all of them is taken out of the lot.

Not a check: `cargo xtask bench --only peers` runs it.
"""

import json
import statistics
import sys
import time

import numpy as np
import shapely
from shapely.geometry import Polygon

# Segments to a quarter turn, so that chords lie within 1 mm of an arc of 3 m.
QUARTER = 32
ROUNDS = 3


def sums(triangles, ring):
    """The hull of all sums of a triangle's corners and a convex figure's, for every triangle."""
    pairs = triangles[:, :, None, :] + ring[None, None, :, :]
    return shapely.convex_hull(shapely.multipoints(pairs.reshape(len(triangles), -1, 2)))


def triangles(figure, apart):
    grown = figure.buffer(apart, quad_segs=QUARTER)
    parts = shapely.get_parts(shapely.constrained_delaunay_triangles(grown))
    return -np.array([np.array(it.exterior.coords)[:3] for it in parts])


def clear(scene, figure):
    held = {apart: triangles(figure, apart) for apart in {scene["lot_apart"], *(it["apart"] for it in scene["obstacles"])}}
    lot = np.array(scene["lot"])
    barred = [sums(held[scene["lot_apart"]], np.array(edge)) for edge in zip(lot, np.roll(lot, -1, axis=0))]
    barred += [sums(held[it["apart"]], np.array(it["ring"])) for it in scene["obstacles"]]
    return Polygon(lot).difference(shapely.union_all(np.concatenate(barred)))


def main():
    most = int(sys.argv[1])
    for line in sys.stdin:
        scene = json.loads(line)
        if scene["count"] > most:
            continue
        times, areas = [], []
        for ring in scene["figures"]:
            figure = Polygon(ring)
            for _ in range(ROUNDS):
                start = time.perf_counter()
                found = clear(scene, figure)
                times.append((time.perf_counter() - start) * 1e3)
            areas.append(found.area)
        print(json.dumps({"count": scene["count"], "one_heading_ms": statistics.median(times), "areas": areas}), flush=True)


main()
