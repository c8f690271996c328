"""The sheets of every demo site as qpdf reads them (pikepdf carries it): structure and streams without a fault, size of
the paper, title, language, embedded faces, and the site file inside.

Independent of what wrote them; the paper sizes are those of ANSI Y14.1 and ISO 216 (from memory).
"""

import json
import os
import pathlib
import subprocess
import sys
import tempfile

import pikepdf

BINARY = os.environ["BATTERBOARD_BIN"]
ROOT = pathlib.Path(__file__).resolve().parents[2]
SITES = sorted((ROOT / "demo-sites").glob("*-*.json"))
SITES = [it for it in SITES if not it.name.endswith((".report.json", ".schema.json"))]

# Short and long side, points.
PAPERS = {
    "letter": (612, 792), "legal": (612, 1008), "tabloid": (792, 1224), "arch-c": (1296, 1728), "arch-d": (1728, 2592),
    "a4": (595.276, 841.89), "a3": (841.89, 1190.551),
}
KINDS = ["permit", "dig", "takeoff", "home", "record", "report"]


def sheet(site, out, *flags):
    told = subprocess.run([BINARY, "sheet", site, "--out", out, *flags], capture_output=True, text=True)
    if told.returncode == 0:
        return True
    assert "Nothing was read back" in told.stderr and "record" in flags, told.stderr
    return False


def check(path, site, paper, tag):
    with pikepdf.open(path) as pdf:
        problems = pdf.check_pdf_syntax()
        assert problems == [], problems
        assert str(pdf.Root.Lang) == tag, pdf.Root.Lang
        name = json.loads(site.read_text())["name"]
        assert str(pdf.docinfo.Title).endswith(name), pdf.docinfo.Title
        for page in pdf.pages:
            box = [float(it) for it in page.mediabox]
            sides = sorted(box[2:])
            assert box[:2] == [0, 0] and all(abs(a - b) < 0.01 for a, b in zip(sides, PAPERS[paper])), (box, paper)
            for font in page.Resources.Font.values():
                inner = font.DescendantFonts[0]
                assert "/FontFile2" in inner.FontDescriptor and "/ToUnicode" in font, font
        inside = pdf.attachments["site.json"].get_file().read_bytes()
        saved = json.loads(inside)
        assert saved["format"] == "batterboard-site" and saved["name"] == name


def main():
    count = 0
    with tempfile.TemporaryDirectory() as folder:
        out = pathlib.Path(folder) / "sheet.pdf"
        for site in SITES:
            wishes = [(kind, "letter", "en") for kind in KINDS]
            wishes += [("permit", paper, "en") for paper in PAPERS if paper != "letter"]
            wishes += [("dig", "a4", "es"), ("home", "a3", "es")]
            for kind, paper, language in wishes:
                if sheet(site, out, "--kind", kind, "--paper", paper, "--lang", language):
                    check(out, site, paper, {"en": "en-US", "es": "es-US"}[language])
                    count += 1
    assert count > 40, count
    print(f"{count} sheets of {len(SITES)} sites: qpdf finds nothing wrong")


if __name__ == "__main__":
    sys.exit(main())
