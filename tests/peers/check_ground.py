"""Fails when tests/peers/ground_cases.json is not what make_ground.py builds.

Run in the environment of tests/requirements.txt. Numbers may differ by 1e-9; anything else, and any
other difference, is told with its place.
"""

import json
import sys

import make_ground
from check_shapely import differences


def main():
    kept = json.loads(make_ground.FILE.read_text(encoding="utf-8"))
    built = make_ground.build()
    found = list(differences(kept, built))
    for line in found[:20]:
        print(line)
    if found:
        print(f"{len(found)} differences: run make_ground.py and look at what changed")
        return 1
    counts = {name: len(kept[name]) for name in ("surfaces", "terrains", "broken")}
    print("{surfaces} surfaces of spots, {terrains} terrains and {broken} surfaces with breaklines".format(**counts))
    print(f"agree with {built['source']}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
