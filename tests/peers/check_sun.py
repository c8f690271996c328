"""Fails when tests/peers/sun_cases.json is not what make_sun.py builds.

Run in the environment of tests/requirements.txt. Numbers may differ by 1e-9; anything else, and any other difference, is told
with its place.
"""

import json
import sys

import make_sun
from check_shapely import differences


def main():
    kept = json.loads(make_sun.FILE.read_text(encoding="utf-8"))
    built = make_sun.build()
    found = list(differences(kept, built))
    for line in found[:20]:
        print(line)
    if found:
        print(f"{len(found)} differences: run make_sun.py and look at what changed")
        return 1
    print(f"{len(kept['cases'])} positions of the sun agree with {built['source']}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
