"""Has programs of other makes read a job's sheets back: read_back.py CHECK LAPWRIGHT [JOB]

CHECK is the name of a function below; JOB is the demo unless given. Exit 0: right; 1: wrong; 77: skipped, with the reason.
"""
import glob
import json
import math
import os
import re
import sys
import tempfile
import xml.etree.ElementTree as ElementTree

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "support"))
from outside import expect, need, run


def pdf_valid():
    need("qpdf")
    report = run("qpdf", "--check", "sheets.pdf")
    expect("No syntax or stream encoding errors found" in report, report)


def pdf_size():
    """Every page is A4 (ISO 216: 210 x 297 mm) within a tenth of a millimetre."""
    need("pdfinfo")
    report = run("pdfinfo", "-f", "1", "-l", "9999", "sheets.pdf")
    pages = re.findall(r"Page +\d+ size: +([\d.]+) x ([\d.]+) pts", report)
    expect(len(pages) > 20, f"only {len(pages)} pages")
    for width, height in pages:
        expect(abs(float(width) * 25.4 / 72 - 210) < 0.1 and abs(float(height) * 25.4 / 72 - 297) < 0.1, report)


def pdf_bar():
    """The 100 mm bar of a template page at 254 dots to the inch: 10 dots to the mm."""
    need("pdftoppm")
    last = run("pdfinfo", "sheets.pdf").split("Pages:")[1].split()[0]
    run("pdftoppm", "-r", "254", "-gray", "-f", last, "-l", last, "sheets.pdf", "bar")
    with open(glob.glob("bar*.pgm")[0], "rb") as file:
        _magic, size, _most, pixels = file.read().split(b"\n", 3)
    width, height = map(int, size.split())
    longest = (0, 0)
    for y in range(height - 160, height - 90):
        row = pixels[y * width + 900:(y + 1) * width - 90]
        dark = [x for x, value in enumerate(row) if value < 128]
        if dark and dark[-1] - dark[0] > longest[0]:
            longest = (dark[-1] - dark[0] + 1, y)
    expect(abs(longest[0] - 1000) <= 4, f"the bar is {longest[0]} dots long")


def pdf_words():
    """No two words of a page lie on each other, none leaves it; the numbers of the plan are there to be copied."""
    need("pdftotext")
    run("pdftotext", "-bbox", "sheets.pdf", "words.xml")
    space = "{http://www.w3.org/1999/xhtml}"
    text = []
    for page in ElementTree.parse("words.xml").iter(space + "page"):
        width, height = float(page.get("width")), float(page.get("height"))
        boxes = []
        for word in page.iter(space + "word"):
            box = [float(word.get(k)) for k in ("xMin", "yMin", "xMax", "yMax")]
            expect(0 < box[0] and box[2] < width and 0 < box[1] and box[3] < height, f"{word.text} leaves its page")
            text.append(word.text)
            # The boxes reach from ascender to descender; what is drawn is the middle of that.
            slack = 0.25 * min(box[3] - box[1], box[2] - box[0])
            boxes.append((box[0] + slack, box[1] + slack, box[2] - slack, box[3] - slack, word.text))
        for i, a in enumerate(boxes):
            for b in boxes[i + 1:]:
                apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
                expect(apart, f"{a[4]!r} lies on {b[4]!r}")
    with open("plan.json", encoding="utf-8") as file:
        plan = json.load(file)
    joined = " ".join(text)
    for piece in plan["pieces"]:
        expect(piece["mark"] in text, f"{piece['mark']} is on no sheet")
    expect(plan["fingerprint"] in joined, "the fingerprint is on no sheet")


def svg_parse():
    files = glob.glob("*.svg")
    for stem in ("roof-", "elevation-", "pattern-"):
        expect(any(name.startswith(stem) for name in files), files)
    for name in files:
        root = ElementTree.parse(name).getroot()
        expect(root.get("width", "").endswith("mm"), f"{name} has no size in mm")


def dxf_audit():
    """ezdxf finds nothing wrong, and cut and fold lines are as long as the net's."""
    try:
        import ezdxf
    except ImportError:
        print("SKIP: ezdxf is not installed")
        sys.exit(77)
    with open("plan.json", encoding="utf-8") as file:
        plan = json.load(file)
    for piece in plan["pieces"]:
        document = ezdxf.readfile(f"pattern-{piece['mark'].lower()}.dxf")
        expect(not document.audit().has_errors, f"{piece['mark']}: {document.audit().errors}")
        long = {"cut": 0.0, "fold": 0.0, "thin": 0.0}
        for entity in document.modelspace():
            layer = entity.dxf.layer.lower()
            expect(layer in long, f"{piece['mark']}: layer {layer}")
            if entity.dxftype() == "LINE":
                long[layer] += (entity.dxf.end - entity.dxf.start).magnitude
            else:
                points = [v.dxf.location for v in entity.vertices]
                ends = points[1:] + points[:1] if entity.is_closed else points[1:]
                long[layer] += sum((b - a).magnitude for a, b in zip(points, ends))
        cut = 0.0
        for ring in [piece["outline"], *piece.get("holes", [])]:
            cut += sum(math.dist(a, b) for a, b in zip(ring, ring[1:] + ring[:1]))
        cuts = piece.get("cuts", [])
        cut += sum(math.dist(c["from"], c["to"]) for c in cuts if not c.get("worked"))
        bossed = sum(math.dist(c["from"], c["to"]) for c in cuts if c.get("worked"))
        fold = sum(math.dist(f["from"], f["to"]) for f in piece.get("folds", []))
        expect(abs(long["cut"] - cut) < 0.1, f"{piece['mark']}: cut {long['cut']} of {cut}")
        expect(abs(long["fold"] - fold) < 0.1, f"{piece['mark']}: fold {long['fold']} of {fold}")
        expect(abs(long["thin"] - bossed) < 0.1, f"{piece['mark']}: bossed {long['thin']} of {bossed}")


if __name__ == "__main__":
    check, program = sys.argv[1], os.path.abspath(sys.argv[2])
    job = os.path.abspath(sys.argv[3] if len(sys.argv) > 3 else "data/demo/hollin-barn.json")
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        run(program, "plan", job, "--out", folder)
        globals()[check]()
        os.chdir("/")
