"""Where the sun stands by another implementation of the same published algorithm, and by another algorithm's rising.

Run in the environment of tests/requirements.txt:

    python tests/peers/make_sun.py

It writes tests/peers/sun_cases.json beside itself. The positions are those of pvlib's solar position algorithm (its file
spa.py, NumPy alone, opened by its path: the package itself would want pandas and h5py), written from the same report as
the core's library and sharing no code with it: 24 places from 78 degrees south to 80 north, a year in steps that fall on
all hours. Atmosphere: 1013.25 mbar and 15 degrees, as the core has it. pvlib leaves the refraction out where the sun is more
than 0.8333 degrees under the horizon.
"""

import datetime
import importlib.util
import json
import pathlib
import random
import sysconfig

import numpy as np

SEED = 5_163
PLACES = 24
TIMES = 60
FILE = pathlib.Path(__file__).with_name("sun_cases.json")

# Seconds that terrestrial time is ahead, about the middle of 2026: the core's own estimate may differ by a few
# seconds, which move the sun by less than 0.0001 degrees.
DELTA_T = 69.2


def library():
    path = pathlib.Path(sysconfig.get_paths()["purelib"]) / "pvlib"
    spec = importlib.util.spec_from_file_location("pvlib_spa", path / "spa.py")
    spa = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(spa)
    metadata = next(path.parent.glob("pvlib-*.dist-info")) / "METADATA"
    version = next(line for line in metadata.read_text().splitlines() if line.startswith("Version: "))
    return spa, version.removeprefix("Version: ")


def build():
    spa, version = library()
    chance = random.Random(SEED)
    cases = []
    for place in range(PLACES):
        latitude = round(-78 + 158 * place / (PLACES - 1) + chance.uniform(-2, 2), 4)
        longitude = round(chance.uniform(-180, 180), 4)
        start = datetime.datetime(2026, 1, 1, tzinfo=datetime.timezone.utc)
        step = datetime.timedelta(days=365 / TIMES, minutes=chance.randrange(23, 1440))
        times = [start + (step * i) % datetime.timedelta(days=365) for i in range(TIMES)]
        times = [it.replace(second=0, microsecond=0) for it in times]
        seconds = np.array([it.timestamp() for it in times])
        _, _, seen, bare, azimuth, _ = spa.solar_position(
            seconds, latitude, longitude, 0.0, 1013.25, 15.0, DELTA_T, 0.5667, 1, False, False
        )
        for i, time in enumerate(times):
            cases.append(
                {
                    "latitude": latitude,
                    "longitude": longitude,
                    "date": time.strftime("%Y-%m-%d"),
                    "minutes": 60 * time.hour + time.minute,
                    "azimuth": round(float(azimuth[i]), 6),
                    "seen": round(float(seen[i]), 6),
                    "bare": round(float(bare[i]), 6),
                }
            )
    return {"source": f"pvlib {version}, spa.py", "cases": cases}


if __name__ == "__main__":
    built = build()
    lines = ",\n".join(json.dumps(case) for case in built["cases"])
    FILE.write_text(f'{{"source": "{built["source"]}", "cases": [\n{lines}\n]}}\n', encoding="utf-8")
