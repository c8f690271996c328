"""The local plane against geographiclib and PROJ.

geographiclib solves the geodesic problem on the WGS 84 ellipsoid to nanometres (Karney 2013, J. Geodesy
87, 43-55). A point is laid out from a random origin by bearing and distance; the command line then says
where it lies on the site. Distance and bearing there are compared with those it was laid out by. PROJ
gives the same plane by formulas of its own (+proj=ortho on the ellipsoid), point by point.
"""

import json
import math
import os
import random
import subprocess
import sys
import tempfile

from geographiclib.geodesic import Geodesic
from pyproj import Transformer

BINARY = os.environ["BATTERBOARD_BIN"]
ORIGINS = 24
EARTH = 6.37e6

# What the plane promises: nearer by s^3 / (6 R^2), and nothing else but nanometres; at 100 m no more
# than 0.15 mm in any case.
DISTANCES = [1.0, 30.0, 100.0, 300.0, 1000.0, 3000.0, 9000.0]
NOISE = 2e-8


def site(longitude, latitude, turn):
    quarter = math.pi / 2
    courses = [{"shape": {"line": {"bearing": quarter * i, "distance": 30.0}}} for i in range(4)]
    lot = {"courses": courses, "basis": {"north": "assumed", "true_north": turn}}
    origin = {"longitude": math.radians(longitude), "latitude": math.radians(latitude)}
    return {"format": "batterboard-site", "version": 3, "name": "Plane", "lot": lot, "origin": origin}


def placed(site_text, points):
    """Where the command line puts places given as longitude and latitude."""
    features = [
        {"type": "Feature", "properties": {}, "geometry": {"type": "Point", "coordinates": p}} for p in points
    ]
    text = json.dumps({"type": "FeatureCollection", "features": features})
    with tempfile.NamedTemporaryFile("w", suffix=".json", encoding="utf-8") as file:
        file.write(site_text)
        file.flush()
        command = [BINARY, "import", "-", "--onto", file.name, "--frame", "degrees", "--list", "--json"]
        answer = subprocess.run(command, input=text, text=True, capture_output=True, check=True)
    return [item["positions"][0] for item in json.loads(answer.stdout)["items"]]


def main():
    random.seed(20)
    worst = {distance: [0.0, 0.0] for distance in DISTANCES}
    worst_proj = 0.0
    fixed = [(180.0, 12.0), (-180.0, -45.0), (0.0, 0.0), (10.0, 88.0), (-77.0, -88.0)]
    chance = [(random.uniform(-180, 180), random.uniform(-85, 85)) for _ in range(ORIGINS - len(fixed))]
    for longitude, latitude in fixed + chance:
        turn = random.choice([0.0, random.uniform(0, 2 * math.pi)])
        laid = []
        for distance in DISTANCES:
            for bearing in range(7, 360, 45):
                there = Geodesic.WGS84.Direct(latitude, longitude, bearing, distance)
                laid.append((distance, math.radians(bearing), [there["lon2"], there["lat2"]]))
        found = placed(json.dumps(site(longitude, latitude, turn)), [point for *_, point in laid])
        proj = Transformer.from_crs(
            "EPSG:4326", f"+proj=ortho +ellps=WGS84 +lat_0={latitude!r} +lon_0={longitude!r}", always_xy=True
        )
        for (distance, bearing, point), (x, y, _) in zip(laid, found, strict=True):
            short = distance - math.hypot(x, y)
            off = abs(short - distance**3 / (6 * EARTH**2))
            aside = (math.atan2(x, y) - turn - bearing + math.pi) % (2 * math.pi) - math.pi
            across = abs(aside) * distance
            kept = worst[distance]
            worst[distance] = [max(kept[0], abs(short), across), max(kept[1], off)]
            east, north = proj.transform(*point)
            turned = (
                east * math.cos(turn) + north * math.sin(turn),
                north * math.cos(turn) - east * math.sin(turn),
            )
            worst_proj = max(worst_proj, math.hypot(turned[0] - x, turned[1] - y))
    failed = False
    for distance, (whole, off) in worst.items():
        # The curvature differs by a hundredth with latitude and bearing, and the bearing by as much.
        allowed = 1.02 * distance**3 / (6 * EARTH**2) + NOISE
        bad = whole > allowed or (distance <= 100.0 and whole > 0.00015)
        failed = failed or bad
        print(f"{distance:7.0f} m: at most {whole * 1000:.6f} mm off{'  TOO MUCH' if bad else ''}")
    print(f"PROJ's plane: at most {worst_proj * 1000:.6f} mm apart")
    return 1 if failed or worst_proj > 1e-6 else 0


if __name__ == "__main__":
    sys.exit(main())
