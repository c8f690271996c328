"""Clear ground against Shapely: thousands of places, each measured with the shell's outline moved there.

The command line gives the water's edge, the top of the dig, everything on the lot and clear ground itself as GeoJSON.
Here the outlines are turned and moved with shapely's affinity, every rule of the site is measured with shapely's
distance, and what may not be dug or covered is told by its intersection. The ground of the site is level, so the dig goes
along unchanged. Places nearer to the edge of clear ground than the chords of two arcs are left out.
"""

import json
import math
import os
import pathlib
import random
import subprocess

import numpy as np
import shapely
from shapely import affinity
from shapely.geometry import LineString, Point, Polygon, shape
from shapely.ops import unary_union

BINARY = os.environ["BATTERBOARD_BIN"]
ROOT = pathlib.Path(__file__).resolve().parents[2]
SITE = ROOT / "demo-sites" / "level-suburban.json"
ORIGIN = "-84.3071,36.4512"
HEADINGS = [0, 33, 90, 147, 215, 301]
PLACES = 1500

# Chords of the outline, of the outline widened, of what it is held off from; degrees of 0.1 mm.
EDGE = 0.004

# What cannot be built where these are: conflicts of the whole work (level-suburban has no others).
NOT_DUG = {"house", "outbuilding", "buried-line", "equipment"}


def run(*arguments):
    answer = subprocess.run([BINARY, *map(str, arguments)], capture_output=True, text=True, check=True)
    return json.loads(answer.stdout)


def corners(site):
    at = np.array(site["lot"]["start"])
    all = []
    for course in site["lot"]["courses"]:
        all.append(at)
        line = course["shape"]["line"]
        at = at + line["distance"] * np.array([math.sin(line["bearing"]), math.cos(line["bearing"])])
    return all


def main():
    site = json.loads(SITE.read_text())
    drawn = run("export", SITE, "--as", "geojson", "--origin", ORIGIN, "--only", "lot,features,shell,dig")
    role = lambda name: [it for it in drawn["features"] if it["properties"]["role"] == name]
    lot_corners = corners(site)
    ring = np.array(role("lot")[0]["geometry"]["coordinates"][0])[:-1]
    # Degrees to the site's own plane: over 40 m the map between them is linear to a fraction of a millimeter.
    middle = ring.mean(axis=0)
    known = np.array(sorted(lot_corners, key=lambda p: math.atan2(*(p - np.mean(lot_corners, axis=0))[::-1])))
    told = np.array(sorted(ring, key=lambda p: math.atan2(*(p - middle)[::-1])))
    matrix, residual, *_ = np.linalg.lstsq(np.c_[told - middle, np.ones(len(told))], known, rcond=None)
    assert np.abs(np.c_[told - middle, np.ones(len(told))] @ matrix - known).max() < 5e-4, residual
    plane = lambda geometry: shapely.transform(geometry, lambda p: np.c_[p - middle, np.ones(len(p))] @ matrix)

    lot = Polygon(lot_corners)
    sides = {}
    for i, course in enumerate(site["lot"]["courses"]):
        line = LineString([lot_corners[i], lot_corners[(i + 1) % len(lot_corners)]])
        sides.setdefault(course["kind"], []).append(line)
    things = [(it["properties"]["kind"], plane(shape(it["geometry"]))) for it in role("feature")]
    placement = site["placement"]
    home = lambda geometry: affinity.translate(
        affinity.rotate(plane(geometry), math.degrees(placement["heading"]) - 90, origin=tuple(placement["at"])),
        -placement["at"][0], -placement["at"][1],
    )
    # Outlines of the shell's part of the map: the smallest is the water's edge.
    outlines = [shape(it["geometry"]) for it in role("shell") if it["geometry"]["type"] == "Polygon"]
    outlines = [Polygon([p[:2] for p in it.exterior.coords]) for it in outlines]
    water = home(min(outlines, key=lambda it: it.area))
    dig = shape([it for it in role("dig-edge") if it["geometry"]["type"] == "Polygon"][0]["geometry"])
    dig = home(Polygon([p[:2] for p in dig.exterior.coords]))
    least = min(it.area for it in outlines)
    coping = min(home(it).exterior.distance(water.exterior) for it in outlines if it.area > least * 1.0001)
    deck = coping + site["works"]["deck"]["width"]
    poured = max(deck, coping + site["works"]["collar"]["width"])

    compared = short = clear = 0
    random.seed(4)
    for heading in HEADINGS:
        found = run("clear-ground", SITE, "--heading", heading, "--as", "geojson", "--origin", ORIGIN)
        region = unary_union([plane(shape(it["geometry"])) for it in found["features"]])
        shapely.prepare(region)
        turned = {
            "waters-edge": (affinity.rotate(water, 90 - heading, origin=(0, 0)), 0.0),
            "dig": (affinity.rotate(dig, 90 - heading, origin=(0, 0)), 0.0),
        }
        turned["rim"] = (turned["waters-edge"][0], coping)
        turned["deck-edge"] = (turned["waters-edge"][0], deck)
        west, south, east, north = lot.bounds
        for _ in range(PLACES):
            at = (random.uniform(west, east), random.uniform(south, north))
            here = {name: (affinity.translate(it, *at), out) for name, (it, out) in turned.items()}
            rooms = []
            for rule in site["rules"]:
                if rule["from"] == "equipment":
                    continue
                figure, out = here[rule["from"]]
                (sort, to), = rule["to"].items()
                if sort == "lot-line":
                    targets = [it for kind, all in sides.items() if to.get("kind") in (None, kind) for it in all]
                else:
                    targets = [it for kind, it in things if kind == to["kind"]]
                for target in targets:
                    rooms.append(figure.distance(target) - out - rule["distance"])
            work = here["waters-edge"][0]
            hole = here["dig"][0]
            inside = lot.contains(work) and lot.contains(hole)
            rooms.append(min(it.distance(work) for all in sides.values() for it in all) - poured if inside else -1.0)
            rooms.append(min(it.distance(hole) for all in sides.values() for it in all) if inside else -1.0)
            for kind, thing in things:
                if kind in NOT_DUG:
                    rooms.append(hole.distance(thing) or -1.0)
                if kind == "easement":
                    rooms.append(work.distance(thing) - poured)
                    rooms.append(hole.distance(thing) or -1.0)
                if kind == "tree":
                    rooms.append(hole.distance(thing.centroid) or -1.0)
            room = min(rooms)
            edge = region.boundary.distance(Point(at))
            if min(abs(room), edge) < EDGE:
                continue
            compared += 1
            short += room < 0
            clear += room > 0
            assert region.contains(Point(at)) == (room > 0), (heading, at, room, edge)
            # Inside, the distance to the edge of clear ground is the room itself.
            if room > 0:
                assert abs(edge - room) < 2 * EDGE, (heading, at, room, edge)
    assert clear > 200 and short > 200, (clear, short)
    print(f"clear ground: {compared} places at {len(HEADINGS)} headings agree with shapely, {clear} of them clear")


main()
