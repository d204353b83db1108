"""Has programs of other makes read a priced job's papers and lists back: read_back.py CHECK LAPWRIGHT

CHECK is the name of a function below. Exit 0: right; 1: wrong; 77: skipped, with the reason.
"""
import csv
import io
import json
import os
import pathlib
import re
import sys
import tempfile

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "support"))
from outside import expect, need, run

ROOT = pathlib.Path(__file__).resolve().parents[2]
DEMO = ROOT / "data/demo/hollin-barn.json"
YARD = ROOT / "data/demo/yard/yard.json"
PAPERS = ("survey", "order", "cutting", "fitting", "quote", "price", "proof", "care")
# Names that a careless writer would break a list with.
NASTY = '=1+1, "wall"; it\'s ×½ £'


def plan(folder, job=DEMO, *words):
    run(PROGRAM, "plan", str(job), "--yard", str(YARD), "--effort", "0", "--out", str(folder), *words)
    return json.loads(pathlib.Path(folder, "plan.json").read_text(encoding="utf-8"))


def rows_of(path):
    """The rows as dictionaries, by Python's reader in its strict mode (RFC 4180: CRLF, quotes doubled)."""
    raw = path.read_bytes()
    expect(raw.startswith(b"\xef\xbb\xbf"), f"{path.name} has no byte order mark")
    expect(raw.endswith(b"\r\n"), f"{path.name} does not end its last line")
    expect(raw.count(b"\n") == raw.count(b"\r\n"), f"{path.name} has lone line feeds")
    rows = list(csv.reader(io.StringIO(raw.decode("utf-8-sig"), newline=""), strict=True))
    for row in rows:
        expect(len(row) == len(rows[0]), f"{path.name}: {len(row)} fields under {len(rows[0])} heads: {row}")
        for field in row:
            expect(not re.match(r"[=+@\t]|-[^0-9.]", field), f"{path.name}: a spreadsheet would work out {field!r}")
    expect(len(set(rows[0])) == len(rows[0]), f"{path.name}: heads {rows[0]}")
    return [dict(zip(rows[0], row)) for row in rows[1:]]


def pence(text):
    expect(re.fullmatch(r"\d+\.\d\d", text), f"{text!r} is no amount of money")
    return int(text.replace(".", ""))


def check_lists(folder, made):
    list_of = lambda name: rows_of(pathlib.Path(folder, name + ".csv"))
    lines = made["estimate"]["lines"]
    order = list_of("order")
    expect([(row["item"], row["slope"].lstrip("'")) for row in order] ==
           [(line["item"], line.get("slope", "")) for line in lines], "order.csv and plan.json list different things")
    for row, line in zip(order, lines):
        expect(abs(float(row["quantity"]) - line["quantity"]) < 0.001, row)
    pieces = list_of("pieces")
    expect(sum(int(row["count"]) for row in pieces) == sum(p["count"] for p in made["pieces"] if not p.get("wrong")),
           "pieces.csv has lost some")
    price = list_of("price")
    sums = {row["what"]: pence(row["amount GBP"]) for row in price[-8:]}
    amounts = [pence(row["amount GBP"]) for row in price[:-8] if row["amount GBP"]]
    expect(sum(amounts) == sums["Materials"] + sums["Work"] + sums["Access"], "price.csv does not add up")
    expect(sums["With VAT"] == sums["Without VAT"] + sums["VAT"], sums)
    for row in price[:-8]:
        if row["amount GBP"]:
            by_hand = float(row["quantity"]) * pence(row["price GBP"])
            expect(abs(by_hand - pence(row["amount GBP"])) <= 0.5 + 1e-6, row)
        else:
            expect(row["note"], f"no amount and no word about it: {row}")
    cut = {}
    for row in list_of("cutting"):
        cut[row["mark"]] = cut.get(row["mark"], 0) + int(row["alike"])
    wanted = {}
    for piece in made["pieces"]:
        wanted[piece["mark"]] = wanted.get(piece["mark"], 0) + piece["count"]
    expect(cut == wanted, f"cutting.csv cuts {cut}, wanted {wanted}")
    expect(sum(int(row["cuts"]) for row in list_of("cuts")) > 0, "cuts.csv has no cuts")
    steps = list_of("fitting")
    expect([int(row["step"]) for row in steps] == list(range(1, len(made["order_of_work"]) + 1)), "steps are lost")
    expect(len(list_of("proof")) > 20 and list_of("battens"), "proof.csv or battens.csv is thin")


def csv_lists():
    with tempfile.TemporaryDirectory() as folder:
        check_lists(folder, plan(folder))
        job = json.loads(DEMO.read_text(encoding="utf-8"))
        job["title"] = NASTY
        job["slopes"][0]["name"] = NASTY
        job["slopes"][0]["junctions"][0]["name"] = "@" + NASTY
        job["slopes"][0]["junctions"][1]["name"] = " -2 " + NASTY
        path = pathlib.Path(folder, "job.json")
        path.write_text(json.dumps(job), encoding="utf-8")
        made = plan(folder, path)
        check_lists(folder, made)
        walls = {row["junction"] for row in rows_of(pathlib.Path(folder, "pieces.csv"))}
        expect(walls == {"'@" + NASTY, " -2 " + NASTY}, walls)


def compare_csv():
    with tempfile.TemporaryDirectory() as folder:
        other = pathlib.Path(folder, "b.json")
        other.write_text(DEMO.read_text(encoding="utf-8").replace('"pitch": 40', '"pitch": 45'), encoding="utf-8")
        text = run(PROGRAM, "compare", str(DEMO), str(other), "--yard", str(YARD), "--out", folder)
        rows = rows_of(pathlib.Path(folder, "compare.csv"))
        expect(len(rows) > 20 and f"{len(rows)} differences" in text, "table and list differ")
        left, right = [head for head in rows[0] if head.startswith(("A ", "B "))]
        expect(all(row[left] != row[right] for row in rows), "a difference that is none")
        expect({"piece", "course", "quantity", "price"} & {row["what"] for row in rows} >= {"piece", "quantity", "price"},
               {row["what"] for row in rows})
        need("pdftotext")
        run("pdftotext", "-layout", folder + "/compare.pdf", folder + "/compare.txt")
        printed = pathlib.Path(folder, "compare.txt").read_text(encoding="utf-8")
        expect(left[2:] in printed and right[2:] in printed, "the paper does not name both plans")


def pdf_pages():
    """Each paper by itself and all in one, A4 and A3 (ISO 216), sound to poppler; the pages of all are those of each."""
    need("pdfinfo")
    for size, wide, high in (("A4", 210, 297), ("A3", 420, 297)):
        with tempfile.TemporaryDirectory() as folder:
            plan(folder, DEMO, "--paper", size)
            total = 0
            for name in (*PAPERS, "papers"):
                report = run("pdfinfo", "-f", "1", "-l", "999", f"{folder}/{name}.pdf")
                sizes = re.findall(r"Page +\d+ size: +([\d.]+) x ([\d.]+) pts", report)
                for got_wide, got_high in sizes:
                    expect(abs(float(got_wide) * 25.4 / 72 - wide) < 0.1 and abs(float(got_high) * 25.4 / 72 - high) < 0.1,
                           f"{name}, {size}: {got_wide} x {got_high}")
                expect(sizes, f"{name} has no page")
                if name == "papers":
                    expect(len(sizes) == total, f"{len(sizes)} pages of all, {total} of each")
                total += len(sizes)


def pdf_words():
    """What each paper is for can be read in it."""
    need("pdftotext")
    with tempfile.TemporaryDirectory() as folder:
        made = plan(folder)
        pages = {}
        for name in (*PAPERS, "papers"):
            run("pdftotext", "-layout", f"{folder}/{name}.pdf", f"{folder}/{name}.txt")
            pages[name] = pathlib.Path(folder, name + ".txt").read_text(encoding="utf-8").split("\f")[:-1]
            for number, page in enumerate(pages[name], 1):
                words = " ".join(page.split())
                for said in (made["title"], made["fingerprint"], f"page {number} of {len(pages[name])}"):
                    expect(said in words, f"{name}, page {number}: no {said!r}")
        said = {name: " ".join(" ".join(texts).split()) for name, texts in pages.items()}
        money = lambda name: next(f"£{s['amount'] // 100}.{s['amount'] % 100:02}" for s in made["price"]["sums"]
                                  if s["name"] == name)
        for name in ("net", "vat", "total"):
            expect(money(name) in said["quote"] and money(name) in said["price"], f"{name}: {money(name)}")
        for word in ("invented", "VAT, 20 %", "holds for 30 days", "Not included", "Provisional", "lead code 3", "lap "):
            expect(word in said["quote"], f"quote: no {word!r}")
        expect("£" not in said["order"], "the order shows prices")
        for roll in made["cutting"]["rolls"]:
            expect(f"code {roll['code']}, {roll['width']:g} mm wide" in said["order"], f"order: no {roll['name']}")
            expect(roll["name"] in said["cutting"], f"cutting: no {roll['name']}")
        expect("two people" in said["order"], "a roll of over 25 kg is not said to be one")
        for piece in made["pieces"]:
            expect(piece["mark"] in said["fitting"].replace("Each", ""), f"fitting: no {piece['mark']}")
        for word in ("Measured by", "Seen before covering", "Taken by, on:", "waste.units", "NHBC"):
            expect(word in said["proof"], f"proof: no {word!r}")
        expect("poisonous" in said["care"] and "platform" in said["care"], "care")


if __name__ == "__main__":
    PROGRAM = os.path.abspath(sys.argv[2])
    globals()[{"csv": "csv_lists"}.get(sys.argv[1], sys.argv[1])]()
