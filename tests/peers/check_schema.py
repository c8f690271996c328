"""The published schemas against the demo sites, by an independent validator.

The reader of the core is made from the same types as the schema, so it cannot check the
schema. Python's jsonschema (https://python-jsonschema.readthedocs.io) does: every demo site
is valid, what the command prints is what is published, and every broken sample is refused
by the schema and by the command alike.
"""

import copy
import json
import os
import subprocess
import sys
from pathlib import Path

from jsonschema import Draft202012Validator

ROOT = Path(__file__).resolve().parents[2]
SCHEMAS = ROOT / "crate" / "core" / "schema"
COMMAND = os.environ.get("BATTERBOARD_BIN")


def load(path):
    return json.loads(path.read_text(encoding="utf-8"))


def demo_sites():
    """Every `name.json`; recorded reports and schemas have a second dot in their names."""
    sites = sorted((ROOT / "demo-sites").glob("*.json"))
    return [path for path in sites if "." not in path.stem]


def opened(site):
    """Whether the command opens a site (0: it holds, 1: it does not, 3: that cannot be told)."""
    run = subprocess.run(
        [COMMAND, "check", "-"], input=json.dumps(site), text=True, capture_output=True
    )
    assert run.returncode in (0, 1, 2, 3), f"the command broke down: {run.stderr}"
    return run.returncode != 2


def broken(site):
    """Copies of a valid site, each with one thing that the schema must refuse."""

    def copied(name, edit):
        sample = copy.deepcopy(site)
        edit(sample)
        return name, sample

    first = site["features"][0]["id"]
    return [
        copied("no lot", lambda s: s.pop("lot")),
        copied("no name", lambda s: s.pop("name")),
        copied("another format", lambda s: s.update(format="other")),
        copied("a newer version", lambda s: s.update(version=4)),
        copied("version as text", lambda s: s.update(version="2")),
        copied("lot as a list", lambda s: s.update(lot=[])),
        copied("unknown units", lambda s: s.update(display="cubits")),
        copied("distance as text", lambda s: s["rules"][0].update(distance="10 ft")),
        copied("rule from nowhere", lambda s: s["rules"][0].update({"from": "moon"})),
        copied("rule without a target", lambda s: s["rules"][0].pop("to")),
        copied(f"unknown kind of {first}", lambda s: s["features"][0].update(kind="spaceship")),
        copied(f"no shape of {first}", lambda s: s["features"][0].pop("shape")),
        copied("two shapes", lambda s: s["features"][0].update(shape={"area": [], "track": []})),
        copied("vertex of one number", lambda s: s["features"][0].update(shape={"area": [[1]]})),
        copied("vertex of four", lambda s: s["features"][0].update(shape={"area": [[1, 2, 3, 4]]})),
        copied("course without a shape", lambda s: s["lot"]["courses"][0].pop("shape")),
        copied("ground of no kind", lambda s: s.update(ground={"hills": {}})),
        copied("spot of two numbers", lambda s: s.update(ground={"spots": {"spots": [[1, 2]]}})),
        copied("placement without a shell", lambda s: s["placement"].pop("shell")),
        copied("soil of no class", lambda s: s.update(works={"dig": {"soil": "mud"}})),
    ]


def main():
    failures = []

    def check(good, what):
        if not good:
            failures.append(what)

    schema = load(SCHEMAS / "site-3.schema.json")
    for name in ("site-3.schema.json", "shell-2.schema.json"):
        Draft202012Validator.check_schema(load(SCHEMAS / name))
    validator = Draft202012Validator(schema)
    sites = demo_sites()
    check(len(sites) >= 3, "there are fewer than three demo sites")
    samples = 0
    for path in sites:
        site = load(path)
        for error in validator.iter_errors(site):
            check(False, f"{path.name} {error.json_path}: {error.message}")
        if COMMAND:
            check(opened(site), f"{path.name}: the command does not open it")
        for name, sample in broken(site):
            samples += 1
            check(not validator.is_valid(sample), f"{path.name}: the schema takes {name}")
            if COMMAND:
                check(not opened(sample), f"{path.name}: the command takes {name}")
    if COMMAND:
        for arguments, name in ((["schema"], "site-3"), (["schema", "--shell"], "shell-2")):
            printed = subprocess.run([COMMAND, *arguments], text=True, capture_output=True)
            published = (SCHEMAS / f"{name}.schema.json").read_text(encoding="utf-8")
            check(printed.stdout == published, f"batterboard schema prints another {name} schema")
    for failure in failures:
        print(f"FAILED: {failure}")
    print(f"schema: {len(sites)} demo sites valid, {samples} broken samples tried")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
