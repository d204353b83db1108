"""Has programs of other makes read the sample back: read_back.py CHECK DRAW_SAMPLE

CHECK is the name of a function below. Exit 0: right; 1: wrong; 77: skipped, with the reason.
"""
import glob
import os
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree
import zlib

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "support"))
from outside import expect, need, run

MM_PER_POINT = 25.4 / 72


def pdf_valid(_sample):
    need("qpdf")
    for name in ("sample.pdf", "plain.pdf"):
        report = run("qpdf", "--check", name)
        expect("No syntax or stream encoding errors found" in report, report)


def pdf_text(_sample):
    need("pdftotext")
    need("pdffonts")
    text = run("pdftotext", "-layout", "sample.pdf", "-")
    for words in ("Ø½ °±é×²", "</text><script>alert(1)</script>", "Łódź Žižkov Ærø naïve façade", "outside: \u0416 \u4E2D",
                  "bell[] tab[ ] nul[] bad[\uFFFD\uFFFD\uFFFD] end", "θ 22½° ≤ 30° → 3 ft 10⅝″ − ✓ ✗ □ √ ² ³", "S12", "175"):
        expect(words in text, f"{words!r} is not in the text of the PDF:\n{text}")
    for line in run("pdffonts", "sample.pdf").splitlines()[2:]:
        expect(line.split()[-5:-2] == ["yes", "yes", "yes"], f"not embedded, subset and with Unicode: {line}")


def pdf_bar(_sample):
    """The 100 mm bar, 254 dots to the inch: 10 dots to the mm."""
    need("pdftoppm")
    run("pdftoppm", "-r", "254", "-gray", "-f", "1", "-l", "1", "sample.pdf", "bar")
    with open(glob.glob("bar*.pgm")[0], "rb") as file:
        magic, size, _most, pixels = file.read().split(b"\n", 3)
    width, height = map(int, size.split())
    expect(magic == b"P5" and (width, height) in ((2100, 2970), (2101, 2971), (2100, 2971), (2101, 2970)), f"A4 is {size}")
    row = height - 170  # the bar lies from 16 to 18 mm above the foot, from 55 to 155 mm across
    dark = [x for x in range(400, 1700) if pixels[row * width + x] < 128]
    # From the outer edge of the first, black field to the last, white one's line; lines are 0.18 mm.
    expect(abs((dark[-1] - dark[0] + 1) - 1002) <= 1, f"the bar is {dark[-1] - dark[0] + 1} dots")
    fields = [x for x in range(dark[0] + 1, dark[-1]) if (pixels[row * width + x] < 128) != (pixels[row * width + x - 1] < 128)]
    expect(len(fields) >= 9, "the bar has no fields")
    expect(abs(dark[0] - 550) <= 2, f"the bar begins at {dark[0]}")


def pdf_widths(sample):
    """Our own measure of each level text against poppler's boxes of its words, within 0.5 %."""
    need("pdftotext")
    ours = [line.split("\t", 4) for line in run(sample, ".", "widths").split("\n") if line.count("\t") >= 4]
    run("pdftotext", "-bbox", "sample.pdf", "boxes.html")
    space = "{http://www.w3.org/1999/xhtml}"
    pages = ElementTree.parse("boxes.html").getroot().iter(space + "page")
    checked = 0
    for number, page in enumerate(pages, 1):
        words = [(float(w.get("xMin")) * MM_PER_POINT, float(w.get("xMax")) * MM_PER_POINT,
                  float(w.get("yMin")) * MM_PER_POINT, float(w.get("yMax")) * MM_PER_POINT)
                 for w in page.iter(space + "word")]
        for its_page, x, y, width, text in ours:
            if int(its_page) != number or text != text.strip():
                continue
            x, y, width = float(x), float(y), float(width)
            inside = [w for w in words if w[2] < y - 0.5 < w[3] and w[0] > x - 1 and w[1] < x + width + 1]
            expect(inside, f"poppler does not see {text!r}")
            seen = max(w[1] for w in inside) - min(w[0] for w in inside)
            expect(abs(seen - width) <= max(0.005 * width, 0.002), f"{text!r}: ours {width} mm, poppler's {seen} mm")
            checked += 1
    expect(checked > 30, f"only {checked} texts were compared")


def pdf_bytes(sample):
    """A second run gives the same bytes in every format."""
    os.mkdir("again")
    run(sample, "again")
    names = sorted(os.listdir("again"))
    expect(len(names) > 10, "too few files")
    for name in names:
        with open(name, "rb") as one, open(os.path.join("again", name), "rb") as other:
            expect(one.read() == other.read(), f"{name} differs")


def svg_parse(_sample):
    space = "{http://www.w3.org/2000/svg}"
    root = ElementTree.parse("page-2.svg").getroot()
    expect((root.get("width"), root.get("height"), root.get("viewBox")) == ("297mm", "210mm", "0 0 297 210"), "size")
    texts = [t.text for t in root.iter(space + "text")]
    for words in ("</text><script>alert(1)</script>", "outside: \u0416 \u4E2D", "bell[] tab[ ] nul[] bad[\uFFFD\uFFFD\uFFFD] end"):
        expect(words in texts, f"{words!r} is not among {texts}")
    expect(not list(root.iter(space + "script")), "a script came through")
    root = ElementTree.parse("page-1.svg").getroot()
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    expect(len(ids) == len(set(ids)) and {"cut", "fold", "hidden", "dimension", "text", "hatch"} <= set(ids), f"ids: {ids}")
    expect("Ø½ °±é×²" in [t.text for t in root.iter(space + "text")], "the text is lost")
    tags = {element.get("data-tag") for element in root.iter()}
    expect({"soaker", "width"} <= tags, f"tags: {tags}")
    cuts = [p for p in root.iter(space + "path") if p.get("class") == "cut"]
    expect(cuts and all(p.get("stroke-width") == "0.7" and not p.get("stroke-dasharray") for p in cuts), "cut lines")


def grey_png(path):
    """Rows of grey levels of an 8-bit PNG with grey, RGB or RGBA pixels."""
    with open(path, "rb") as file:
        data = file.read()
    at, packed, width, depth, colour = 8, b"", 0, 0, 0
    while at < len(data):
        length, kind = int.from_bytes(data[at:at + 4], "big"), data[at + 4:at + 8]
        body = data[at + 8:at + 8 + length]
        if kind == b"IHDR":
            width, depth, colour = int.from_bytes(body[:4], "big"), body[8], body[9]
        elif kind == b"IDAT":
            packed += body
        at += 12 + length
    step = {0: 1, 2: 3, 6: 4}[colour]
    expect(depth == 8, "depth of the PNG")
    raw, stride, rows = zlib.decompress(packed), width * step, []
    above = bytearray(stride)
    for start in range(0, len(raw), stride + 1):
        method, line = raw[start], bytearray(raw[start + 1:start + 1 + stride])
        for i in range(stride):
            left = line[i - step] if i >= step else 0
            up, corner = above[i], above[i - step] if i >= step else 0
            if method == 1:
                line[i] = (line[i] + left) & 255
            elif method == 2:
                line[i] = (line[i] + up) & 255
            elif method == 3:
                line[i] = (line[i] + (left + up) // 2) & 255
            elif method == 4:
                near = left + up - corner
                best = min((abs(near - left), 0, left), (abs(near - up), 1, up), (abs(near - corner), 2, corner))
                line[i] = (line[i] + best[2]) & 255
        rows.append(line[::step])
        above = line
    return rows


def darkness(rows, side):
    """The mean darkness of square blocks, 0 to 1."""
    return [[sum(255 - p for row in rows[y:y + side] for p in row[x:x + side]) / (255 * side * side)
             for x in range(0, 1568, side)] for y in range(0, 2240, side)]


def svg_like_pdf(_sample):
    """A browser's picture of the SVG and poppler's of the PDF show the same things in the same places."""
    need("chromium")
    need("pdftoppm")
    done = subprocess.run(
        ["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--user-data-dir=" + os.path.abspath("profile"),
         "--hide-scrollbars", "--force-device-scale-factor=2", "--window-size=794,1123", "--screenshot=svg.png",
         "file://" + os.path.abspath("page-1.svg")], capture_output=True, check=False, timeout=120)
    if not os.path.exists("svg.png"):
        print("SKIP: chromium does not start here: " + done.stderr.decode(errors="replace")[-300:])
        sys.exit(77)
    run("pdftoppm", "-r", "192", "-thinlinemode", "shape", "-f", "1", "-l", "1", "-png", "sample.pdf", "pdf")
    side = 28  # pixels, 3.7 mm
    ours, theirs = darkness(grey_png("svg.png"), side), darkness(grey_png(glob.glob("pdf-*.png")[0]), side)
    apart = [(abs(a - b), x, y, a, b) for y, (r, s) in enumerate(zip(ours, theirs)) for x, (a, b) in enumerate(zip(r, s))]
    worst = max(apart)
    print(f"most apart: {worst}; mean {sum(a[0] for a in apart) / len(apart):.4f}")
    expect(sum(map(sum, ours)) > 100, "the picture is blank")
    for difference, x, y, a, b in apart:
        expect(difference < 0.12, f"{x * side / 192 * 25.4:.0f} mm across, {y * side / 192 * 25.4:.0f} mm down: {a:.2f}, {b:.2f}")


def open_dxf(name):
    try:
        import ezdxf
    except ImportError:
        print("SKIP: ezdxf is not installed (Debian: python3-ezdxf)")
        sys.exit(77)
    document = ezdxf.readfile(name)
    audit = document.audit()
    expect(not audit.errors and not audit.fixes,
           f"{name}: {[e.message for e in list(audit.errors) + list(audit.fixes)]}")
    return document


def dxf_audit(_sample):
    page = open_dxf("page-1.dxf")
    from ezdxf.lldxf.encoding import decode_dxf_unicode
    second = open_dxf("page-2.dxf")
    expect(page.header["$INSUNITS"] == 4, "not in mm")
    texts = [decode_dxf_unicode(t.dxf.text) for d in (page, second) for t in d.modelspace().query("TEXT")]
    for words in ("Ø½ °±é×²", "</text><script>alert(1)</script>", "outside: \u0416 \u4E2D"):
        expect(words in texts, f"{words!r} is not among {texts}")
    expect(page.layers.has_entry("CUT") and page.layers.has_entry("DIMENSION"), "layers")
    for entity in page.modelspace():
        expect(page.layers.has_entry(entity.dxf.layer), f"{entity} lies on a layer of its own")
        expect(page.linetypes.has_entry(entity.dxf.linetype), f"{entity} has an unknown line type")


def dxf_net(_sample):
    """The net's outline as ezdxf understands it: its box, its area, its hole."""
    document = open_dxf("net.dxf")
    from ezdxf import bbox
    from ezdxf.path import make_path
    space = document.modelspace()
    outline = [p for p in space.query('POLYLINE[layer=="CUT"]')]
    expect(len(outline) == 1 and outline[0].is_closed, "one closed outline")
    box = bbox.extents(outline)
    expect(abs(box.size.x - 175) < 1e-6 and abs(box.size.y - 190) < 1e-6, f"box {box}")
    points = [(v.x, v.y) for v in make_path(outline[0]).flattening(0.001)]
    area = abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1]))) / 2
    expected = 175 * 190 - (1 - 3.141592653589793 / 4) * 400  # a corner rounded by 20
    expect(abs(area - expected) < 1, f"area {area}, expected {expected}")
    hole = space.query("CIRCLE")
    expect(len(hole) == 1 and abs(hole[0].dxf.radius - 12) < 1e-9 and abs(hole[0].dxf.center.x - 140) < 1e-9, "hole")
    folds = space.query('LINE[layer=="FOLD"]')
    expect(len(folds) == 1 and folds[0].dxf.linetype == "FOLD", "fold")


def deflate(_sample):
    names = sorted(glob.glob("deflate-*.z"))
    expect(len(names) == 8, f"{names}")
    for name in names:
        with open(name, "rb") as packed, open(name[:-2] + ".raw", "rb") as raw:
            packed, raw = packed.read(), raw.read()
        expect(zlib.decompress(packed) == raw, f"{name} does not come back")
        print(f"{name}: {len(raw)} -> {len(packed)}, zlib -6: {len(zlib.compress(raw))}")
        expect(len(packed) <= 1.25 * len(zlib.compress(raw)) + 200, f"{name}: {len(packed)} bytes")


def font_subset(_sample):
    """The face holds every character that its list names, and its widths are those of the face it was cut from."""
    try:
        from fontTools.ttLib import TTFont
    except ImportError:
        print("SKIP: fontTools is not installed (Debian: fonttools)")
        sys.exit(77)
    listed = set()
    here = os.path.dirname(os.path.abspath(__file__))
    with open(os.path.join(here, "../../src/draw/font/glyphs.txt"), encoding="utf-8") as file:
        for line in file:
            for word in line.split("#")[0].split():
                first, _, last = word[2:].partition("-")
                listed |= set(range(int(first, 16), int(last or first, 16) + 1))
    expect(len(listed) > 600, "the list is short")
    ours = {"regular": {}, "bold": {}}
    with open("widths.txt", encoding="ascii") as file:
        for line in file:
            code, weight, width = line.split()
            ours[weight][int(code)] = float(width)
    for weight, widths in ours.items():
        face = TTFont(weight + ".ttf")
        drawn = {code: face["hmtx"][glyph][0] * 1000 / face["head"].unitsPerEm for code, glyph in face.getBestCmap().items()}
        # Controls, the soft hyphen and marks of direction have no width: they are dropped before they reach the face.
        widths = {code: width for code, width in widths.items() if width > 0}
        missed = (set(drawn) ^ set(widths)) - {0x85, 0x2028, 0x2029}  # line breaks are drawn as spaces
        missed -= {0xAD}
        expect(not missed, f"{weight}: we and fontTools disagree whether there is {[hex(c) for c in sorted(missed)][:20]}")
        wrong = [hex(code) for code, width in widths.items() if code in drawn and abs(width - drawn[code]) > 0.001]
        expect(not wrong, f"{weight}: the widths of {wrong[:20]} differ")
    for name in ("regular.ttf", "bold.ttf"):
        kept = TTFont(name).getBestCmap()
        expect(listed <= set(kept), f"{name} lacks {[hex(c) for c in sorted(listed - set(kept))]}")
        expect("FFTM" not in TTFont(name), f"{name} holds the time it was made")


def main():
    check, sample = sys.argv[1], os.path.abspath(sys.argv[2])
    chosen = {f.__name__: f for f in (pdf_valid, pdf_text, pdf_bar, pdf_widths, pdf_bytes, svg_parse, svg_like_pdf, dxf_audit, dxf_net,
                                      deflate, font_subset)}[check]
    with tempfile.TemporaryDirectory() as directory:
        os.chdir(directory)
        run(sample, ".")
        chosen(sample)
        os.chdir("/")
    print("right")


main()
