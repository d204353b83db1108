"""cli_test.py LAPWRIGHT: exit statuses, malformed input, output that cannot be written, plan.json last and whole."""

import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

ROOT = pathlib.Path(__file__).resolve().parents[2]
TOOL = sys.argv.pop(1)
DEMO = ROOT / "data/demo/hollin-barn.json"
RACK = ROOT / "tests/jobs/yards/rack.json"
CASES = ROOT / "tests/jobs/cases"
FAULT = re.compile(rb"^\$[^\n]*: [a-z-]+; read .+; accepted: .+", re.S)


def run(*words, **more):
    return subprocess.run([TOOL, *map(str, words)], capture_output=True, timeout=60, **more)


def job(**changes):
    """A sound job as text, with pieces of its text replaced."""
    text = DEMO.read_text(encoding="utf-8")
    for old, new in changes.get("replace", []):
        assert old in text, old
        text = text.replace(old, new, 1)
    return text.encode()


class Exits(unittest.TestCase):
    def test_done(self):
        for words in (["plan", DEMO], ["check", DEMO], ["why", DEMO, "S1"], ["schema", "job"], ["schema", "plan"],
                      ["schema", "yard"], ["plan", DEMO, "--yard", RACK, "--effort", "0"]):
            got = run(*words)
            self.assertEqual((got.returncode, got.stderr), (0, b""), words)
            self.assertTrue(got.stdout.endswith(b"\n"))

    def test_wrong(self):
        for name in ("a02-slate-too-flat", "a05-slate-at-10", "a07-step-and-cover", "a12-too-long-a-piece"):
            for command in ("plan", "check"):
                got = run(command, CASES / f"{name}.json")
                self.assertEqual((got.returncode, got.stderr), (1, b""), name)
                self.assertIn(b"WRONG", got.stdout)

    def test_json_is_all_that_is_printed(self):
        plan = json.loads(run("plan", DEMO, "--json").stdout)
        self.assertEqual(plan["format"], "lapwright-plan/1")
        found = json.loads(run("check", CASES / "a05-slate-at-10.json", "--json").stdout)
        self.assertEqual(set(found), {"format", "findings"})
        self.assertEqual(found["findings"][0]["level"], "wrong")

    def test_a_roof_that_stands(self):
        job = json.loads(pathlib.Path(DEMO).read_text())
        job["as_built"] = [{"kind": "missing", "junction": "house wall", "piece": "soaker", "course": 12}]
        job["leaks"] = [{"when": "January gale", "wind_from": 225, "rain": "heavy", "where": "house wall"}]
        with tempfile.TemporaryDirectory() as folder:
            file = pathlib.Path(folder, "job.json")
            file.write_text(json.dumps(job))
            got = run("check", file)
            self.assertEqual(got.returncode, 1)
            self.assertIn(b"course 12", got.stdout.lower())
            self.assertIn(b"January gale", got.stdout)
            found = json.loads(run("check", file, "--json").stdout)
            self.assertEqual(found["existing"]["suspects"][0]["course"], 12)
            self.assertEqual(found["existing"]["suspects"][0]["gives"], "any-rain")
            # The work that puts it right is sound.
            self.assertEqual(run("plan", file).returncode, 0)

    def test_odds(self):
        found = json.loads(run("check", DEMO, "--odds", "--json").stdout)
        self.assertTrue(all(0 <= o["chance"] <= 1 for o in found["odds"]))
        self.assertIn("check.proud", {o["rule"] for o in found["odds"]})
        self.assertIn(b"Chance", run("check", DEMO, "--odds").stdout)

    def test_bad_words(self):
        for words in ([], ["plan"], ["plant", DEMO], ["plan", DEMO, "--loud"], ["schema", "roof"], ["why", DEMO, "Z9"]):
            got = run(*words)
            self.assertEqual(got.returncode, 2, words)
            self.assertTrue(got.stderr or got.stdout)
        self.assertIn(b"S1", run("why", DEMO, "Z9").stderr)  # the marks that there are

    def test_same_bytes_twice(self):
        self.assertEqual(run("plan", DEMO, "--json").stdout, run("plan", DEMO, "--json").stdout)


class Cutting(unittest.TestCase):
    def test_says_what_to_buy_and_how_good_that_is(self):
        text = run("plan", DEMO, "--effort", "0.1").stdout.decode()
        for words in ("To buy and to cut", "prices invented", "No strip cutting", "No cutting at all can be cheaper than £",
                      "By hand (by width, first fit)"):
            self.assertIn(words, text)

    def test_a_house_of_several_stacks_and_walls(self):
        # Two walls and two stacks on one slope: rolls, kilograms, money, what a hand would buy, and a gap with its words.
        text = run("plan", "tests/jobs/cases/all-together.json", "--yard", RACK, "--effort", "0.1").stdout.decode()
        for words in (r"\d+ × code 4, \d+ mm × \d+ mm: [\d.]+ kg \([\d.]+ kg each\), £[\d,.]+",
                      r"Bought [\d.]+ kg for £[\d,.]+\. In pieces [\d.]+ kg",
                      r"No strip cutting (is cheaper: proven|can be cheaper than £[\d,.]+: this plan is at most [\d.]+ % above it)",
                      r"No cutting at all can be cheaper than £[\d,.]+: at most [\d.]+ % above it",
                      r"By hand \(by width, first fit\) [\d.]+ kg would be bought: "):
            self.assertRegex(text, words)

    def test_efforts_and_limits_that_are_none(self):
        for words in (["--effort", "nan"], ["--effort", "-1"], ["--effort", "1e9"], ["--time-limit", "0"],
                      ["--time-limit", "nan"], ["--time-limit", "inf"]):
            got = run("plan", DEMO, *words)
            self.assertEqual((got.returncode, got.stdout), (2, b""), words)

    def test_a_time_limit_still_gives_a_whole_plan(self):
        plan = json.loads(run("plan", DEMO, "--time-limit", "0.001", "--effort", "50", "--json").stdout)
        cut = {}
        for roll in plan["cutting"]["rolls"]:
            for piece in roll["pieces"]:
                cut[piece["mark"]] = cut.get(piece["mark"], 0) + roll["count"]
        wanted = {}
        for piece in plan["pieces"]:
            wanted[piece["mark"]] = wanted.get(piece["mark"], 0) + piece["count"]
        self.assertEqual(cut, wanted)

    def test_offcuts_go_back_into_the_yard_or_nothing_does(self):
        with tempfile.TemporaryDirectory() as folder:
            yard = pathlib.Path(folder, "yard.json")
            yard.write_bytes(RACK.read_bytes())
            plan = json.loads(run("plan", DEMO, "--yard", yard, "--effort", "0", "--json").stdout)
            self.assertEqual(yard.read_bytes(), RACK.read_bytes())  # not without being asked
            self.assertEqual(run("plan", DEMO, "--yard", yard, "--effort", "0", "--keep-offcuts").returncode, 0)
            after = json.loads(yard.read_bytes())
            area = lambda cuts: sum(cut["width"] * cut["length"] * cut.get("count", 1) for cut in cuts)
            rolls = plan["cutting"]["rolls"]
            taken = sum(roll["width"] * roll["length"] * roll["count"] for roll in rolls if roll.get("offcut"))
            kept = sum(left["width"] * left["length"] * roll["count"]
                       for roll in rolls for left in roll.get("left", []) if left["keep"])
            self.assertEqual(area(after["offcuts"]), area(json.loads(RACK.read_bytes())["offcuts"]) - taken + kept)
            self.assertEqual(os.listdir(folder), ["yard.json"])
            # A yard that cannot be read is left as it is; without a yard there is nowhere to put them.
            yard.write_bytes(b"{")
            got = run("plan", DEMO, "--yard", yard, "--keep-offcuts")
            self.assertEqual((got.returncode, yard.read_bytes()), (2, b"{"))
            self.assertEqual(run("plan", DEMO, "--effort", "0", "--keep-offcuts").returncode, 2)

    def test_yards_that_are_none(self):
        with tempfile.TemporaryDirectory() as folder:
            yard = pathlib.Path(folder, "yard.json")
            for old, new in ((b'"width": 180', b'"width": 0'), (b'"price_per_kg": 310', b'"price_per_kg": -3'),
                             (b'"length": 6000', b'"length": 6e9')):
                yard.write_bytes(RACK.read_bytes().replace(old, new, 1))
                got = run("plan", DEMO, "--yard", yard)
                self.assertEqual((got.returncode, got.stdout), (2, b""))
                self.assertEqual(len(got.stderr.splitlines()), 1)
                self.assertRegex(got.stderr, FAULT)


class Malformed(unittest.TestCase):
    def refuse(self, bytes_, path, name="job.json", lines=1):
        with tempfile.TemporaryDirectory() as folder:
            file = pathlib.Path(folder, name)
            file.write_bytes(bytes_)
            out = pathlib.Path(folder, "out")
            for words in (["plan", file, "--out", out], ["plan", file, "--json"], ["check", file], ["why", file, "S1"]):
                got = run(*words)
                self.assertEqual(got.returncode, 2, (path, got))
                self.assertEqual(got.stdout, b"")
                faults = got.stderr.decode("utf-8").splitlines()  # and so valid UTF-8
                self.assertEqual(len(faults), lines, faults)
                for fault in faults:
                    self.assertRegex(fault.encode(), FAULT)
                self.assertTrue(any(f.startswith(path) for f in faults), faults)
            self.assertFalse(out.exists(), "something was written")

    def test_truncated(self):
        whole = job()
        for n in (0, 1, len(whole) // 3, len(whole) // 2, len(whole) - 3):
            self.refuse(whole[:n], "$")

    def test_keys(self):
        self.refuse(job(replace=[('"rafter"', '"raftre": 1, "rafter"')]), "$.slopes[0].raftre")
        self.refuse(job(replace=[('"pitch": 40', '"pitch": 40, "pitch": 41')]), "$.slopes[0].pitch")

    def test_numbers(self):
        at = "$.slopes[0].rafter"
        for bad in ("NaN", "Infinity", "-Infinity", "1e999", "-1e999", "-3600", "0", "1e300", "100001", '"101 m"'):
            self.refuse(job(replace=[('"rafter": 3600', f'"rafter": {bad}')]), at)
        for bad in ("0", "90", "-40", "180", "1e999", "NaN"):
            self.refuse(job(replace=[('"pitch": 40', f'"pitch": {bad}')]), "$.slopes[0].pitch")

    def test_absurd(self):
        junction = '{"kind":"side","hand":"left"},'
        many = job(replace=[('"junctions": [', '"junctions": [' + junction * 1_000_000)])
        self.refuse(many, "$")
        self.refuse(b"[" * 100_000, "$")
        self.refuse(b"[" * 100_000 + b"]" * 100_000, "$")
        self.refuse(b'{"a":' * 100_000, "$")

    def test_bad_utf8(self):
        self.refuse(job().replace(b"Hollin", b"Holl\xff\xfe"), "$.title")
        self.refuse(b"\xff\xfe\x00", "$")
        self.refuse(job().replace(b"Hollin", b"\xed\xa0\x80"), "$.title")

    def test_every_kept_bad_job(self):
        files = sorted((ROOT / "tests/jobs/bad").glob("*.json"))
        self.assertGreater(len(files), 50)
        for file in files:
            got = run("plan", file)
            self.assertEqual((got.returncode, got.stdout), (2, b""), file.name)
            self.assertRegex(got.stderr, FAULT)
            self.assertEqual(got.stderr.count(b"\n"), 1, file.name)

    def test_every_fault_at_once(self):
        self.refuse(
            job(replace=[('"pitch": 40', '"pitch": 95'), ('"rafter": 3600', '"rafter": -1'), ('"gap": 6', '"gpa": 6')]),
            "$.slopes[0].junctions[0].gpa", lines=3)

    def test_long_rafter_is_a_doubt(self):
        text = job(replace=[('"rafter": 3600', '"rafter": 40000')]).replace(b'"to": 3600, ', b"")
        with tempfile.TemporaryDirectory() as folder:
            file = pathlib.Path(folder, "long.json")
            file.write_bytes(text)
            got = run("check", file)
            self.assertEqual(got.returncode, 0, got)
            self.assertIn(b"DOUBT: $.slopes[0].rafter", got.stdout)

    def test_not_a_file(self):
        for path in ("/", "/nowhere/at/all.json", ROOT / "data"):
            for command in ("plan", "check"):
                got = run(command, path)
                self.assertEqual((got.returncode, got.stdout), (2, b""))
                self.assertEqual(got.stderr.count(b"\n"), 1)
                self.assertIn(str(path).encode(), got.stderr)


class Output(unittest.TestCase):
    def test_whole_and_last(self):
        with tempfile.TemporaryDirectory() as folder:
            out = pathlib.Path(folder, "deep", "er")
            self.assertEqual(run("plan", DEMO, "--out", out).returncode, 0)
            files = sorted(p.name for p in out.iterdir())
            self.assertIn("plan.json", files)
            self.assertFalse([f for f in files if f.endswith(".part")], files)
            plan = (out / "plan.json").read_bytes()
            self.assertEqual(plan, run("plan", DEMO, "--json").stdout)
            # Clocks of file systems tick coarsely: nothing may be newer than the plan, but much may be as new.
            newest = max(path.stat().st_mtime_ns for path in out.iterdir())
            self.assertEqual((out / "plan.json").stat().st_mtime_ns, newest)

    def test_wrong_is_written_too(self):
        with tempfile.TemporaryDirectory() as folder:
            out = pathlib.Path(folder, "out")
            self.assertEqual(run("plan", CASES / "a05-slate-at-10.json", "--out", out).returncode, 1)
            self.assertTrue((out / "plan.json").exists())

    def test_folder_that_cannot_be_written(self):
        with tempfile.TemporaryDirectory() as folder:
            file = pathlib.Path(folder, "file")
            file.write_text("kept")
            for out in (file, file / "below", "/proc/no/such"):
                got = run("plan", DEMO, "--out", out)
                self.assertEqual((got.returncode, got.stdout), (2, b""), out)
                self.assertIn(str(out).encode(), got.stderr)
            self.assertEqual(file.read_text(), "kept")
            (pathlib.Path(folder, "taken") / "plan.json").mkdir(parents=True)
            got = run("plan", DEMO, "--out", pathlib.Path(folder, "taken"))
            self.assertEqual(got.returncode, 2)
            self.assertFalse(list(pathlib.Path(folder, "taken").glob("*.part")))

    def test_full_standard_output(self):
        with open("/dev/full", "wb") as full:
            for words in (["plan", DEMO], ["plan", DEMO, "--json"], ["check", DEMO], ["schema", "job"]):
                got = subprocess.run([TOOL, *map(str, words)], stdout=full, stderr=subprocess.PIPE, timeout=60)
                self.assertEqual(got.returncode, 2)
                self.assertIn(b"standard output", got.stderr)

    def test_full_disk(self):
        with tempfile.TemporaryDirectory() as folder:
            mount = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=8k", "tmpfs", folder], capture_output=True)
            if mount.returncode:
                self.skipTest("a small file system can only be mounted by root")
            try:
                out = pathlib.Path(folder, "out")
                got = run("plan", DEMO, "--out", out)
                self.assertEqual((got.returncode, got.stdout), (2, b""))
                self.assertIn(b"cannot be written", got.stderr)
                self.assertFalse((out / "plan.json").exists())
                self.assertFalse(list(out.glob("*.part")))
            finally:
                subprocess.run(["umount", folder], check=True)


if __name__ == "__main__":
    os.chdir(ROOT)
    unittest.main()
