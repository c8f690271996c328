"""Real parcels and footprints through the command line, against PROJ, geographiclib's areas and GEOS.

Data: `bubenec.gpkg` as it ships inside momepy 0.11.0: 407 parcels of a cadastre and 144 footprints
of a quarter of a city (momepy is under the BSD licence; its data are open data of that city's cadastre
and map). Nothing of it is kept here: it is opened where pip put it, carried to WGS 84 by
pyproj, and written as GeoJSON while the check runs.
"""

import importlib.util
import json
import math
import os
import pathlib
import sqlite3
import struct
import subprocess
import sys
import tempfile

import pyproj
import shapely
import shapely.geometry

BINARY = os.environ["BATTERBOARD_BIN"]
GEOD = pyproj.Geod(ellps="WGS84")
# How many parcels are taken all the way into a site and back.
WHOLE_WAY = 6
MILLIMETRE = 0.001


def carried(shape, transformer):
    return shapely.transform(shape, transformer.transform, interleaved=False)


def run(arguments, text=""):
    answer = subprocess.run([BINARY, *arguments], input=text, text=True, capture_output=True, check=False)
    if answer.returncode != 0:
        sys.exit(f"{arguments}: {answer.stderr}")
    return answer.stdout


def shapes(table):
    """The geometries of a table, WGS 84 degrees."""
    # The package itself wants more than its data; only its folder is looked up.
    package = importlib.util.find_spec("momepy").submodule_search_locations[0]
    file = pathlib.Path(package) / "datasets" / "bubenec.gpkg"
    degrees = pyproj.Transformer.from_crs("EPSG:3857", "EPSG:4326", always_xy=True)
    with sqlite3.connect(f"file:{file}?mode=ro", uri=True) as data:
        (srs,) = data.execute("select srs_id from gpkg_geometry_columns where table_name = ?", [table]).fetchone()
        assert srs == 3857, srs
        for (blob,) in data.execute(f"select geom from {table} order by fid"):
            # GeoPackage: magic, version, flags, srs, an envelope of so many numbers, then WKB.
            (flags,) = struct.unpack_from("B", blob, 3)
            header = 8 + 8 * [0, 4, 6, 6, 8][flags >> 1 & 7]
            yield carried(shapely.from_wkb(blob[header:]), degrees)


def collection(named):
    features = [
        {"type": "Feature", "properties": about, "geometry": shapely.geometry.mapping(shape)}
        for about, shape in named
    ]
    return json.dumps({"type": "FeatureCollection", "features": features})




def plane_at(origin):
    longitude, latitude = (math.degrees(origin[key]) for key in ("longitude", "latitude"))
    return pyproj.Transformer.from_crs(
        "EPSG:4326", f"+proj=ortho +ellps=WGS84 +lat_0={latitude!r} +lon_0={longitude!r}", always_xy=True
    )


def rings(shape):
    for part in getattr(shape, "geoms", [shape]):
        yield part.exterior
        yield from part.interiors


def everything(parcels, footprints):
    """All at once: areas and lengths, and every position against PROJ."""
    named = [({"class": "parcel", "number": i}, p) for i, p in enumerate(parcels)]
    named += [({"building": "yes", "number": i}, b) for i, b in enumerate(footprints)]
    listed = json.loads(run(["import", "-", "--list", "--json"], collection(named)))
    plane = plane_at(listed["origin"])
    worst_flat = worst_area = worst_length = worst_place = 0.0
    refused = 0
    for item, (_, shape) in zip(listed["items"], named, strict=True):
        if item["positions"] is None:
            refused += 1
            flat = carried(shape, plane)
            sides = min(a.distance(b) for a, b in sides_of(flat))
            assert not flat.is_valid or sides < 1e-3, f"{item['place']} was refused, GEOS finds nothing wrong"
            continue
        flat = carried(shape, plane)
        worst_flat = max(worst_flat, abs(flat.area - item["area"]) / flat.area)
        area, _ = GEOD.geometry_area_perimeter(shapely.geometry.polygon.orient(shape))
        worst_area = max(worst_area, abs(abs(area) - item["area"]) / abs(area))
        length = sum(GEOD.geometry_length(ring) for ring in rings(shape))
        worst_length = max(worst_length, abs(length - item["length"]) / length)
        theirs = [plane.transform(*p[:2]) for ring in rings(shape) for p in ring.coords[:-1]]
        for x, y, _ in item["positions"]:
            worst_place = max(worst_place, min(math.hypot(x - a, y - b) for a, b in theirs))
    print(f"{len(named)} shapes, {refused} refused as GEOS would")
    print(
        f"areas: {worst_flat:.1e} of themselves off GEOS on PROJ's plane, {worst_area:.1e} off areas on the "
        f"ellipsoid; lengths: {worst_length:.1e}; places: {worst_place * 1000:.6f} mm"
    )
    # The quarter is 1 km across: r^2 / (2 R^2) there is 1.2e-8 of a length, twice that of an area. Areas
    # on the ellipsoid come from a difference of large ones: of a shed they are good to 1e-5 only.
    exact = worst_flat < 1e-8 and worst_length < 5e-8 and worst_place < 1e-6
    return exact and worst_area < 1e-5 and refused < 0.05 * len(named)


def sides_of(flat):
    """Pairs of sides of one ring that share no corner."""
    for ring in rings(flat):
        points = list(ring.coords)
        sides = [shapely.LineString(pair) for pair in zip(points, points[1:])]
        for i, a in enumerate(sides):
            for j in range(i + 2, len(sides)):
                if (i, j) != (0, len(sides) - 1):
                    yield a, sides[j]


def whole_way(parcel, number, footprints):
    """One parcel with what stands on it: into a site, out again, and in again."""
    inside = [b for b in footprints if parcel.contains(b.representative_point())]
    named = [({"class": "parcel", "number": number}, parcel)]
    named += [({"building": "house", "number": i}, b) for i, b in enumerate(inside)]
    with tempfile.TemporaryDirectory() as folder:
        site = pathlib.Path(folder) / "site.json"
        site.write_text(run(["import", "-", "--lot", "1", "--replace-spots"], collection(named)), encoding="utf-8")
        report = json.loads(run(["report", str(site), "--json"]))
        first = json.loads(site.read_text(encoding="utf-8"))
        area, _ = GEOD.geometry_area_perimeter(shapely.geometry.polygon.orient(parcel))
        off = abs(report["lot"]["area"]["value"] - abs(area)) / abs(area)
        exported = run(["export", str(site), "--as", "geojson", "--only", "lot,features"])
        again = pathlib.Path(folder) / "again.json"
        again.write_text(run(["import", "-", "--onto", str(site), "--frame", "degrees"], exported), encoding="utf-8")
        second = json.loads(again.read_text(encoding="utf-8"))
        points = run(["export", str(site), "--as", "points", "--only", "lot"])
        third = json.loads(run(["import", "-", "--onto", str(site)], points))
    apart = max(farthest(first, second), farthest_corner(first, third))
    houses = [f for f in first["features"] if f["kind"] == "house"]
    plane = plane_at(first["origin"])
    flat, theirs = carried(parcel, plane), [carried(b, plane) for b in inside]
    gap = min((flat.exterior.distance(b) for b in theirs), default=0.0)
    ours = shapely.Polygon(corners(first))
    our_gap = min((ours.exterior.distance(polygon(f)) for f in houses), default=0.0)
    print(
        f"parcel {number}: {len(inside)} footprints, area {off:.1e} of itself off, nearest to a line "
        f"{gap:.3f} m ({abs(gap - our_gap) * 1000:.6f} mm off), round trip {apart * 1000:.4f} mm"
    )
    return off < 1e-6 and apart < MILLIMETRE and abs(gap - our_gap) < MILLIMETRE and len(houses) == len(inside)


def corners(site):
    x, y = site["lot"]["start"]
    out = []
    for course in site["lot"]["courses"]:
        out.append((x, y))
        line = course["shape"]["line"]
        x += line["distance"] * math.sin(line["bearing"])
        y += line["distance"] * math.cos(line["bearing"])
    return out


def polygon(feature):
    shape = feature["shape"]
    if "area" in shape:
        return shapely.Polygon(shape["area"])
    pieces = [shapely.Polygon(p["outer"], p.get("holes", [])) for p in shape["compound"]]
    return shapely.MultiPolygon(pieces)


def farthest_corner(a, b):
    ours, theirs = corners(a), corners(b)
    assert len(ours) == len(theirs)
    return max(min(math.dist(p, q) for q in theirs) for p in ours)


def farthest(a, b):
    assert [f["id"] for f in a["features"]] == [f["id"] for f in b["features"]]
    apart = farthest_corner(a, b)
    for one, other in zip(a["features"], b["features"], strict=True):
        apart = max(apart, polygon(one).hausdorff_distance(polygon(other)))
    return apart


def main():
    parcels = [p for p in shapes("plots")]
    footprints = [b for b in shapes("buildings")]
    good = everything(parcels, footprints)
    simple = [
        (i, p)
        for i, p in enumerate(parcels)
        if p.geom_type == "Polygon" and not p.interiors and any(p.contains_properly(b) for b in footprints)
    ]
    step = max(1, len(simple) // WHOLE_WAY)
    for number, parcel in simple[::step][:WHOLE_WAY]:
        good = whole_way(parcel, number, footprints) and good
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
