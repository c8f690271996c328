"""Fails when tests/peers/shapely_cases.json is not what make_cases.py builds.

Run in the environment of tests/requirements.txt. Numbers may differ by 1e-9; anything else, and any
other difference, is told with its place.
"""

import json
import math
import sys

import make_cases

TOLERANCE = 1e-9


def differences(kept, built, place=""):
    """Every place where two documents differ."""
    if isinstance(kept, dict) and isinstance(built, dict):
        for key in sorted(kept.keys() | built.keys()):
            yield from differences(kept.get(key), built.get(key), f"{place}/{key}")
    elif isinstance(kept, list) and isinstance(built, (list, tuple)):
        if len(kept) != len(built):
            yield f"{place}: {len(kept)} entries kept, {len(built)} built"
        for i, (a, b) in enumerate(zip(kept, built)):
            yield from differences(a, b, f"{place}/{i}")
    elif isinstance(kept, (int, float)) and isinstance(built, (int, float)):
        if not math.isclose(kept, built, rel_tol=TOLERANCE, abs_tol=TOLERANCE):
            yield f"{place}: {kept} kept, {built} built"
    elif kept != built:
        yield f"{place}: {kept!r} kept, {built!r} built"


def main():
    kept = json.loads(make_cases.FILE.read_text(encoding="utf-8"))
    built = make_cases.build()
    found = list(differences(kept, built))
    for line in found[:20]:
        print(line)
    if found:
        print(f"{len(found)} differences: run make_cases.py and look at what changed")
        return 1
    print(f"{len(kept['cases'])} cases agree with {built['source']}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
