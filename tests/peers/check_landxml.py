"""LandXML as the command line writes it, against the published schema and against arithmetic done elsewhere.

Schema: LandXML-1.2.xsd as posted 7/29/2008, read in the repository bbrangeo/OpenInfraPlatform (schema/), as no
package of a registry ships it. What it says of every element that is written stands below in a table of this
check's own: which children in which order, which attributes with which values, which must be there, and which
names must be unique. An element that the table does not know fails the check.

Arithmetic: the file is parsed by expat; lot areas and arcs are worked out from the text alone with shapely's
rings, the volume of the dig from its faces and those of the ground with NumPy, and both are compared with the
report.
"""

import json
import math
import os
import pathlib
import re
import subprocess
import sys
import xml.etree.ElementTree as ET

import numpy as np
import shapely

BINARY = os.environ["BATTERBOARD_BIN"]
ROOT = pathlib.Path(__file__).resolve().parents[2]
SPACE = "{http://www.landxml.org/schema/LandXML-1.2}"

TEXT = r".*"
DOUBLE = r"[-+]?(\d+(\.\d*)?|\.\d+)([eE][-+]?\d+)?"
STATE = "abandoned|destroyed|existing|proposed"
POINT = {
    "name": TEXT, "desc": TEXT, "code": TEXT, "state": STATE, "pntRef": TEXT,
    "role": "measured|to stake out|staked out|calculated|assistance point|user entered point|control point",
}


def coordinates(least, most):
    return rf"({DOUBLE})(\s+{DOUBLE}){{{least - 1},{'' if most is None else most - 1}}}"


def units(area, linear, volume, temperature, pressure):
    told = {
        "areaUnit": area, "linearUnit": linear, "volumeUnit": volume, "temperatureUnit": temperature,
        "pressureUnit": pressure,
    }
    return ("", told, set(told), None)


# What the report calls the part of the cut that lies beyond the survey.
UNSURVEYED = "of it under unsurveyed ground"

# Element: children as a pattern over ";"-ended names, attributes, those required, text.
SCHEMA = {
    "LandXML": (
        "((Units|CoordinateSystem|Project|Application|CgPoints|Parcels|PlanFeatures|Surfaces);)+",
        {
            "date": r"\d{4}-\d\d-\d\d", "time": r"\d\d:\d\d:\d\d", "version": TEXT, "language": TEXT,
            "readOnly": "true|false|0|1", "{http://www.w3.org/2001/XMLSchema-instance}schemaLocation": TEXT,
        },
        {"date", "time", "version"},
        None,
    ),
    "Units": ("(Metric|Imperial);", {}, set(), None),
    "Metric": units(
        "hectare|squareMeter|squareMillimeter|squareCentimeter", "millimeter|centimeter|meter|kilometer",
        "cubicMeter|liter|hectareMeter", "celsius|kelvin", "HPA|milliBars|mmHG|millimeterHG",
    ),
    "Imperial": units(
        "acre|squareFoot|squareInch|squareMiles", "foot|USSurveyFoot|inch|mile",
        "US_gallon|IMP_gallon|cubicInch|cubicFeet|cubicYard|acreFeet", "fahrenheit|kelvin", "inchHG|inHG",
    ),
    "Project": ("", {"name": TEXT, "desc": TEXT, "state": STATE}, {"name"}, None),
    "Application": ("(Author;)*", {"name": TEXT, "desc": TEXT, "version": TEXT}, {"name"}, None),
    "CgPoints": ("(CgPoint;)*(CgPoints;)*", {"desc": TEXT, "name": TEXT, "state": STATE, "code": TEXT}, set(), None),
    "CgPoint": (
        "",
        POINT | {
            "pntSurv": "monument|control|sideshot|boundary|natural boundary|traverse|reference|administrative",
        },
        set(),
        coordinates(2, 3),
    ),
    "Parcels": ("(Parcel;)+", {"desc": TEXT, "name": TEXT, "state": STATE}, set(), None),
    "Parcel": ("((Center|CoordGeom);)+", {"name": TEXT, "area": DOUBLE, "desc": TEXT}, {"name"}, None),
    "CoordGeom": ("((Line|IrregularLine|Curve|Spiral|Chain);)+", {"desc": TEXT, "name": TEXT}, set(), None),
    "Line": ("Start;End;", {"desc": TEXT, "length": DOUBLE, "name": TEXT}, set(), None),
    "Curve": (
        "((Start|Center|End|PI);){3,}",
        {"rot": "cw|ccw", "crvType": "arc|chord", "desc": TEXT, "length": DOUBLE, "radius": DOUBLE},
        {"rot"},
        None,
    ),
    "IrregularLine": ("Start;End;(PntList2D|PntList3D);", {"desc": TEXT, "name": TEXT}, set(), None),
    "Start": ("", POINT, set(), coordinates(2, 3)),
    "End": ("", POINT, set(), coordinates(2, 3)),
    "Center": ("", POINT, set(), coordinates(2, 3)),
    # The schema asks for two numbers, its words for two points.
    "PntList2D": ("", {}, set(), coordinates(4, None)),
    "PntList3D": ("", {}, set(), coordinates(6, None)),
    "PlanFeatures": ("(PlanFeature;)+", {"desc": TEXT, "name": TEXT, "state": STATE}, set(), None),
    "PlanFeature": ("((CoordGeom|Location);)*", {"desc": TEXT, "name": TEXT, "state": STATE}, set(), None),
    "Surfaces": ("(Surface;)+", {"desc": TEXT, "name": TEXT, "state": STATE}, set(), None),
    "Surface": ("((SourceData|Definition|Watersheds);){0,3}", {"name": TEXT, "desc": TEXT, "state": STATE}, {"name"}, None),
    "SourceData": ("((Chain|PointFiles|Boundaries|Breaklines|Contours|DataPoints);)*", {}, set(), None),
    "Breaklines": ("(Breakline;)*(RetWall;)*", {}, set(), None),
    "Breakline": (
        "(PntList2D|PntList3D);",
        {"brkType": "standard|wall|proximity|nondestructive", "desc": TEXT, "name": TEXT, "state": STATE},
        set(),
        None,
    ),
    "Definition": ("Pnts;(Faces;)+", {"surfType": "TIN|grid"}, {"surfType"}, None),
    "Pnts": ("(P;){3,}", {}, set(), None),
    "P": ("", POINT | {"id": r"[1-9]\d*"}, {"id"}, coordinates(3, 3)),
    "Faces": ("(F;)+", {"desc": TEXT, "name": TEXT, "state": STATE}, set(), None),
    "F": ("", {}, set(), r"\d+ \d+ \d+"),
}
# Where names (of points of a surface, ids) must differ: parent, child, attribute.
UNIQUE = [
    ("LandXML", "CgPoints", "name"), ("CgPoints", "CgPoint", "name"), ("Parcels", "Parcel", "name"),
    ("Surfaces", "Surface", "name"), ("Pnts", "P", "id"),
]


def run(arguments, text=""):
    answer = subprocess.run([BINARY, *arguments], input=text, text=True, capture_output=True, check=False)
    if answer.returncode != 0:
        sys.exit(f"{arguments}: {answer.stderr}")
    return answer.stdout


def faults(element):
    """Everything in which an element and what is in it breaks the schema."""
    name = element.tag.removeprefix(SPACE)
    if name not in SCHEMA:
        yield f"{element.tag} is not in the table"
        return
    children, attributes, required, text = SCHEMA[name]
    found = "".join(f"{child.tag.removeprefix(SPACE)};" for child in element)
    if not re.fullmatch(children, found):
        yield f"{name} holds {found[:200]}"
    for key, value in element.attrib.items():
        if key not in attributes or not re.fullmatch(attributes[key], value):
            yield f"{name} has {key}={value!r}"
    for key in required - set(element.attrib):
        yield f"{name} lacks {key}"
    told = (element.text or "").strip()
    if text is None and told or text is not None and not re.fullmatch(text, told):
        yield f"{name} says {told[:80]!r}"
    for parent, child, key in UNIQUE:
        if parent == name:
            keys = [it.get(key) for it in element.findall(SPACE + child)]
            if len(set(keys)) != len(keys):
                yield f"{name} has several {child} of one {key}"
    for child in element:
        yield from faults(child)


def numbers(element):
    return [float(word) for word in element.text.split()]


def lot_area(parcel):
    """Area of a parcel in square units: its corners, and what its arcs add or take."""
    ring, added, off = [], 0.0, 0.0
    for part in parcel.find(SPACE + "CoordGeom"):
        ends = {name: numbers(part.find(SPACE + name)) for name in ("Start", "End")}
        start, end = ends["Start"], ends["End"]
        ring.append((start[1], start[0]))
        if part.tag == SPACE + "Line":
            off = max(off, abs(math.dist(start, end) - float(part.get("length"))))
            continue
        centre = numbers(part.find(SPACE + "Center"))
        radius = math.dist(centre, start)
        off = max(off, abs(radius - math.dist(centre, end)), abs(radius - float(part.get("radius"))))
        angles = [math.atan2(p[0] - centre[0], p[1] - centre[1]) for p in (start, end)]
        left = part.get("rot") == "ccw"
        sweep = (angles[1] - angles[0] if left else angles[0] - angles[1]) % math.tau
        off = max(off, abs(radius * sweep - float(part.get("length"))))
        added += (1 if left else -1) * radius**2 * (sweep - math.sin(sweep)) / 2
    flat = shapely.Polygon(ring)
    assert flat.is_valid and flat.exterior.is_ccw
    return flat.area + added, off


def faces(surface):
    definition = surface.find(SPACE + "Definition")
    points = np.array([numbers(p) for p in definition.find(SPACE + "Pnts")])
    ids = [int(p.get("id")) for p in definition.find(SPACE + "Pnts")]
    place = {number: i for i, number in enumerate(ids)}
    corners = [[place[int(word)] for word in f.text.split()] for f in definition.find(SPACE + "Faces")]
    # East, north, up.
    return points[:, [1, 0, 2]], np.array(corners)


def heights(ground, places):
    """The surface above some places, from the triangle that each lies in; NaN beyond it, where nobody surveyed."""
    points, corners = ground
    a, b, c = (points[corners[:, k]] for k in range(3))
    whole = cross(b - a, c - a)
    out = []
    for place in places:
        shares = np.stack([cross(v - u, place - u) for u, v in ((b, c), (c, a), (a, b))]) / whole
        inside = shares.min(axis=0).argmax()
        if shares[:, inside].min() < -1e-6:
            out.append(math.nan)
            continue
        out.append(shares[0, inside] * a[inside, 2] + shares[1, inside] * b[inside, 2] + shares[2, inside] * c[inside, 2])
    return np.array(out)


def cross(u, v):
    return u[..., 0] * v[..., 1] - u[..., 1] * v[..., 0]


def volume(ground, dig):
    """Between two surfaces where both are, by the middles of the sides of the lower one's triangles."""
    points, corners = dig
    a, b, c = (points[corners[:, k]] for k in range(3))
    plan = cross(b - a, c - a) / 2
    assert (plan > 0).all()
    total = 0.0
    for u, v in ((a, b), (b, c), (c, a)):
        middle = (u + v) / 2
        total += float(np.nansum(plan * (heights(ground, middle) - middle[:, 2]))) / 3
    return total, float(plan.sum())


def edges_are_shared(corners):
    """Every edge belongs to two triangles that walk it in opposite ways, or to the rim of the surface."""
    seen = set()
    for a, b, c in corners.tolist():
        for edge in ((a, b), (b, c), (c, a)):
            assert edge not in seen, "two triangles lie on one side of an edge"
            seen.add(edge)
    rim = [edge for edge in seen if (edge[1], edge[0]) not in seen]
    assert len({a for a, _ in rim}) == len(rim), "the rim of a surface meets itself"
    return len(rim)


def main():
    good = True
    for site in sorted(ROOT.glob("demo-sites/*.json")):
        if "schema" in site.name or "report" in site.name:
            continue
        report = json.loads(run(["report", str(site), "--json"]))
        (bank,) = (line for line in report["quantities"] if line["key"] == "bank-cut")
        # The surface of the ground ends where the survey does.
        beyond = sum(it["value"] for it in bank["inputs"] if it["name"] == UNSURVEYED)
        for frame, metres in (("feet", 0.3048), ("survey-feet", 1200 / 3937), ("metres", 1.0)):
            root = ET.fromstring(run(["export", str(site), "--as", "landxml", "--frame", frame]))
            wrong = list(faults(root))
            for fault in wrong[:10]:
                print(f"{site.stem}: {fault}")
            area, off = lot_area(next(root.iter(SPACE + "Parcel")))
            area_off = abs(area * metres**2 / report["lot"]["area"]["value"] - 1)
            print(
                f"{site.stem}, {frame}: {sum(1 for _ in root.iter())} elements, {len(wrong)} against the schema; lot "
                f"{area_off:.1e} of itself off, curves and lengths {off:.1e}"
            )
            good &= not wrong and area_off < 1e-6 and off < 5e-6
        surfaces = {it.get("name"): faces(it) for it in root.iter(SPACE + "Surface")}
        cut, opened = volume(surfaces["Existing ground"], surfaces["Dig"])
        cut_off = abs(cut * metres**3 / (bank["value"] - beyond) - 1)
        rim = edges_are_shared(surfaces["Dig"][1])
        edges_are_shared(surfaces["Existing ground"][1])
        print(
            f"{site.stem}: dig of {len(surfaces['Dig'][1])} faces, {rim} edges at the rim, "
            f"{opened * metres**2:.2f} m2, volume {cut_off:.1e} of itself off"
        )
        good &= cut_off < 3e-3
        again = json.loads(run(["import", "-"], run(["export", str(site), "--as", "landxml"])))
        here = json.loads(site.read_text(encoding="utf-8"))
        same = len(again["lot"]["courses"]) == len(here["lot"]["courses"])
        good &= same and len(again["features"]) == len(here["features"])
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
