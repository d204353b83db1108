"""jobs_test.py LAPWRIGHT: jobs in a folder: whole or not at all, nobody's work overwritten, nothing lost."""

import fcntl
import hashlib
import json
import os
import pathlib
import random
import resource
import signal
import subprocess
import sys
import tempfile
import threading
import time
import unittest

from served import Case, Server, main

ROOT = pathlib.Path(__file__).resolve().parents[2]
DEMO = (ROOT / "data/demo/hollin-barn.json").read_bytes()


def revision(data):
    return hashlib.sha256(data).hexdigest()[:32]


def files(folder):
    return sorted(str(p.relative_to(folder)) for p in folder.rglob("*") if p.is_file())


class Jobs(Case):
    def told(self, answer, status, code):
        self.assertEqual(answer.status, status, answer)
        said = json.loads(answer.body)
        self.assertEqual(said["code"], code)
        self.assertNotIn("\n", said["text"])
        return said

    def test_a_life(self):
        made = self.server.put("life", DEMO)
        self.assertEqual(made.status, 201)
        self.assertEqual(made.revision, revision(DEMO))
        self.assertEqual((self.server.jobs / "life.json").read_bytes(), DEMO)
        got = self.server.get("life")
        self.assertEqual((got.body, got.revision, got.one("cache-control")), (DEMO, revision(DEMO), "no-store"))
        self.assertEqual(got.one("content-type"), "application/json")

        changed = DEMO.replace(b'"pitch": 40', b'"pitch": 41')
        put = self.server.put("life", changed, seen=got.revision)
        self.assertEqual((put.status, put.revision), (200, revision(changed)))
        row = next(job for job in json.loads(self.server.ask("GET", "/api/jobs").body)["jobs"] if job["id"] == "life")
        self.assertEqual({k: row[k] for k in ("revision", "bytes", "title", "sound")},
                         {"revision": revision(changed), "bytes": len(changed), "title": json.loads(DEMO)["title"], "sound": True})
        self.assertLess(abs(row["changed"] / 1000 - time.time()), 60)

        thrown = self.server.ask("DELETE", "/api/jobs/life", If_Match=f'"{put.revision}"')
        self.assertEqual((thrown.status, json.loads(thrown.body)), (200, {"bin": f"life.{put.revision}"}))
        self.assertEqual(self.server.get("life").status, 404)
        back = self.server.ask("GET", f"/api/bin/life.{put.revision}")
        self.assertEqual(back.body, changed)
        self.assertIn(f"life.{put.revision}", [j["id"] for j in json.loads(self.server.ask("GET", "/api/bin").body)["bin"]])
        self.assertEqual(self.server.put("life", back.body).status, 201)

    def test_lengths_of_the_hash(self):
        """Every length about a block's end, against another program's SHA-256."""
        name, seen = "lengths", None
        for length in (*range(40, 135), 1000, 65536, 100_001):
            data = b'{"a":"' + b"x" * (length - 8) + b'"}'
            answer = self.server.put(name, data, seen=seen)
            self.assertEqual((answer.status // 100, answer.revision), (2, revision(data)), length)
            seen = answer.revision

    def test_two_windows(self):
        first = self.server.put("two", b'{"by":"a"}')
        self.server.put("two", b'{"by":"b"}', seen=first.revision)
        late = self.server.put("two", b'{"by":"c"}', seen=first.revision)
        said = self.told(late, 412, "changed-elsewhere")
        self.assertEqual((said["job"], said["revision"]), ({"by": "b"}, revision(b'{"by":"b"}')))
        self.assertEqual(late.revision, said["revision"])
        self.assertEqual(self.server.get("two").body, b'{"by":"b"}')
        # A new job in the place of one that is there; throwing away what one has not seen.
        self.told(self.server.put("two", b'{"by":"d"}'), 412, "changed-elsewhere")
        gone = self.server.ask("DELETE", "/api/jobs/two", If_Match=f'"{first.revision}"')
        self.told(gone, 412, "changed-elsewhere")
        self.assertEqual(self.server.get("two").body, b'{"by":"b"}')

    def test_gone(self):
        made = self.server.put("gone", b'{"a":1}')
        self.server.ask("DELETE", "/api/jobs/gone", If_Match=f'"{made.revision}"')
        self.told(self.server.put("gone", b'{"a":2}', seen=made.revision), 412, "gone")
        self.assertEqual(self.server.get("gone").status, 404)

    def test_the_same_again(self):
        """A client whose answer was lost asks again: that is no conflict."""
        first = self.server.put("again", b'{"a":1}')
        self.assertEqual(self.server.put("again", b'{"a":1}').status, 200)
        second = self.server.put("again", b'{"a":2}', seen=first.revision)
        self.assertEqual(self.server.put("again", b'{"a":2}', seen=first.revision).revision, second.revision)
        for _ in range(2):
            thrown = self.server.ask("DELETE", "/api/jobs/again", If_Match=f'"{second.revision}"')
            self.assertEqual(thrown.status, 200)

    def test_no_revision(self):
        self.server.put("blind", b'{"a":1}')
        seen = revision(b'{"a":1}')
        for fields in ({}, {"If_Match": "*"}, {"If_Match": f'W/"{seen}"'}, {"If_Match": seen}, {"If_Match": f'"{seen}", "x"'},
                       {"If_None_Match": f'"{seen}"'}, {"If_None_Match": "*", "If_Match": f'"{seen}"'}):
            self.told(self.server.ask("PUT", "/api/jobs/blind", b'{"a":2}', **fields), 428, "no-revision")
            self.told(self.server.ask("DELETE", "/api/jobs/blind", **fields), 428, "no-revision")
        self.assertEqual(self.server.get("blind").body, b'{"a":1}')

    def test_no_json(self):
        seen = self.server.put("words", b"{}").revision
        for body in (b"", b" ", b"{", b'{"a":}', b"{'a':1}", b'{"a":1,}', b"{} {}", b"nul", b"\xff{}", b'{"a":"\xff"}',
                     b'{"a":NaN}', b'{"a":1e999}', b'{"a":"\n"}', b'{"a":"\\ud800"}', b"\0" * 100, b"[" * 100_000,
                     b'{"a":' * 100_000, b'{"a":[' + b"[" * 70 + b"]" * 70 + b"]}", b"[]", b'"text"', b"12", b"null", b"true"):
            with self.subTest(body[:20]):
                self.told(self.server.put("words", body, seen=seen), 400, "not-json")
        said = self.told(self.server.put("words", b'{\n "a": 1,\n "b" 2\n}', seen=seen), 400, "not-json")
        self.assertIn("line 3, column 6", said["text"])
        self.assertEqual(self.server.get("words").body, b"{}")

    def test_fuzzed_json(self):
        """What another reader of JSON refuses is refused, what it reads as an object is kept byte for byte."""
        draw, taken = random.Random(7), [0, 0]
        def strange(_):
            raise ValueError("no number")
        seen = self.server.put("fuzz", b"{}").revision
        for _ in range(300):
            data = bytearray(DEMO[:draw.randint(20, 400)] + b"}" if draw.random() < 0.2 else DEMO)
            for _ in range(draw.randint(0, 3)):
                at = draw.randrange(len(data))
                data[at:at + draw.randint(0, 4)] = draw.choice(
                    [b"", b"{", b"}", b"[", b"]", b'"', b",", b":", b"\\", b"\0", b"\xc3\xa9", b"\xff", b"1", b" ", draw.randbytes(3)])
            data = bytes(data)
            try:
                sound = isinstance(json.loads(data.decode("utf-8"), parse_constant=strange), dict)
            except (ValueError, RecursionError):
                sound = False
            answer = self.server.put("fuzz", data, seen=seen)
            self.assertEqual(answer.status, 200 if sound else 400, data)
            taken[sound] += 1
            if sound:
                seen = answer.revision
                self.assertEqual(self.server.get("fuzz").body, data)
        self.assertGreater(min(taken), 30, taken)

    def test_ids(self):
        for name in ("a", "0", "a-1", "f" * 64):
            self.assertEqual(self.server.put(name, b"{}").status, 201, name)
        before = files(self.server.jobs)
        for name in ("-a", "A", "a.b", "a_b", "f" * 65, ".", "..", "a/b", "%61", "a%2fb", "a.json", "bin/a", "\\", "~", "a+b", "*"):
            self.told(self.server.put(name, b"{}"), 400, "bad-id")
            self.assertEqual(self.server.get(name).status, 404)
            self.assertEqual(self.server.ask("DELETE", f"/api/jobs/{name}", If_Match=f'"{revision(b"{}")}"').status, 404)
        self.assertEqual(files(self.server.jobs), before)

    def test_what_a_job_is_called_is_only_text(self):
        title = '</script><script>alert(1)</script>"\\ \u2028 \x7f'
        self.server.put("called", json.dumps({"title": title}).encode())
        rows = json.loads(self.server.ask("GET", "/api/jobs").body)["jobs"]
        self.assertEqual(next(j["title"] for j in rows if j["id"] == "called"), title)
        self.server.put("nested", b'{"a":{"title":"inner"},"title":7,"b":["title","x"]}')
        rows = json.loads(self.server.ask("GET", "/api/jobs").body)["jobs"]
        self.assertEqual(next(j["title"] for j in rows if j["id"] == "nested"), "")
        self.server.put("deeper", b'{"title":["x",{"title":"y"}],"a":"z"}')
        rows = json.loads(self.server.ask("GET", "/api/jobs").body)["jobs"]
        self.assertEqual(next(j["title"] for j in rows if j["id"] == "deeper"), "")

    def test_files_that_are_no_jobs(self):
        outside = self.server.page.parent / "outside.json"
        outside.write_bytes(b'{"secret":1}')
        (self.server.jobs / "linked.json").symlink_to(outside)
        (self.server.jobs / "folder.json").mkdir()
        (self.server.jobs / "Not An Id.json").write_bytes(b"{}")
        (self.server.jobs / "notes.txt").write_bytes(b"x")
        (self.server.jobs / "broken.json").write_bytes(b'{"half":')
        (self.server.jobs / "giant.json").write_bytes(b" " * 8_000_001)
        os.mkfifo(self.server.jobs / "pipe.json")
        try:
            rows = {j["id"]: j for j in json.loads(self.server.ask("GET", "/api/jobs").body)["jobs"]}
            for name in ("linked", "folder", "notes", "giant", "pipe"):
                self.assertNotIn(name, rows)
                self.assertEqual(self.server.get(name).status, 404)
            self.assertFalse(rows["broken"]["sound"])
            for name in ("linked", "folder", "giant", "pipe"):
                self.told(self.server.put(name, b"{}"), 500, "cannot-write")
            self.assertEqual(outside.read_bytes(), b'{"secret":1}')
            # What a hand broke can be seen, thrown away and written anew; a conflict shows that it is no JSON.
            self.assertIsNone(self.told(self.server.put("broken", b"{}"), 412, "changed-elsewhere")["job"])
            self.assertEqual(self.server.put("broken", b"{}", seen=revision(b'{"half":')).status, 200)
        finally:
            for name in ("giant.json", "linked.json", "pipe.json", "notes.txt", "Not An Id.json"):
                (self.server.jobs / name).unlink()
            (self.server.jobs / "folder.json").rmdir()

    def test_many_windows_at_once(self):
        """Each adds its marks to one list by reading, adding, and writing what it has seen: none is lost."""
        self.server.put("list", b'{"marks":[]}')
        conflicts = []

        def window(number):
            for i in range(10):
                while True:
                    got = self.server.get("list")
                    job = json.loads(got.body)
                    job["marks"].append(f"{number}-{i}")
                    answer = self.server.put("list", json.dumps(job).encode(), seen=got.revision)
                    if answer.status == 200:
                        break
                    self.assertEqual(answer.status, 412)
                    conflicts.append(number)

        windows = [threading.Thread(target=window, args=(n,)) for n in range(6)]
        for one in windows:
            one.start()
        for one in windows:
            one.join()
        marks = json.loads(self.server.get("list").body)["marks"]
        self.assertEqual(sorted(marks), sorted(f"{n}-{i}" for n in range(6) for i in range(10)))
        self.assertTrue(conflicts)


class TwoServers(unittest.TestCase):
    def test_on_one_folder(self):
        one = Server(Case.tool)
        two = Server(Case.tool, jobs=one.jobs)
        one.put("list", b'{"marks":[]}')

        def window(server, name):
            for i in range(25):
                status = 0
                while status != 200:
                    got = server.get("list")
                    job = json.loads(got.body)
                    job["marks"].append(f"{name}-{i}")
                    status = server.put("list", json.dumps(job).encode(), seen=got.revision).status

        both = [threading.Thread(target=window, args=(s, n)) for n, s in enumerate((one, two, one, two))]
        for thread in both:
            thread.start()
        for thread in both:
            thread.join()
        self.assertEqual(len(json.loads(one.get("list").body)["marks"]), 100)
        self.assertEqual(two.end(), (0, "Ended.\n", ""))
        self.assertEqual(one.end(), (0, "Ended.\n", ""))


    def test_a_write_waits_for_the_lock(self):
        """What another server holds while it compares and replaces."""
        server = Server(Case.tool)
        folder = os.open(server.jobs, os.O_RDONLY)
        fcntl.flock(folder, fcntl.LOCK_EX)
        answers = []
        writer = threading.Thread(target=lambda: answers.append(server.put("waits", b"{}").status))
        writer.start()
        time.sleep(0.5)
        self.assertEqual((answers, files(server.jobs)), ([], []))
        os.close(folder)
        writer.join(timeout=30)
        self.assertEqual((answers, files(server.jobs)), ([201], ["waits.json"]))
        self.assertEqual(server.end(), (0, "Ended.\n", ""))


class Killed(unittest.TestCase):
    def test_in_mid_write(self):
        """Whenever it dies, the job is whole: one that was sent, never less than the last one answered for."""
        with tempfile.TemporaryDirectory() as folder:
            draw = random.Random(3)
            answered, sent, seen = -1, -1, None
            body = lambda n: json.dumps({"n": n, "fill": "x" * 400_000}).encode()  # noqa: E731
            for _ in range(12):
                server = Server(Case.tool, jobs=folder)
                if seen is not None:
                    got = server.get("kept")
                    number = json.loads(got.body)["n"]
                    self.assertEqual(got.body, body(number))
                    self.assertIn(number, (answered, sent))
                    answered = sent = number
                    seen = got.revision
                threading.Timer(draw.uniform(0.02, 0.25), server.process.kill).start()
                try:
                    while True:
                        sent = answered + 1
                        answer = server.put("kept", body(sent), seen=seen)
                        self.assertIn(answer.status, (200, 201))
                        answered, seen = sent, answer.revision
                except (OSError, AssertionError) as end:
                    if isinstance(end, AssertionError) and "is not in" in str(end):
                        raise
                self.assertEqual(server.end()[0], -signal.SIGKILL)
            self.assertGreater(answered, 12)
            # What a killed write left is taken away by the next server, and never looks like a job.
            self.assertLessEqual(set(files(pathlib.Path(folder))), {"kept.json", ".being-written.part"})
            pathlib.Path(folder, ".being-written.part").write_bytes(b'{"half":')
            server = Server(Case.tool, jobs=folder)
            self.assertEqual(files(pathlib.Path(folder)), ["kept.json"])
            self.assertEqual(server.end(), (0, "Ended.\n", ""))

    def test_ends_at_each_signal(self):
        for how in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
            server = Server(Case.tool)
            self.assertTrue(server.healthy())
            self.assertEqual(server.end(how), (0, "Ended.\n", ""))


class FullDisk(unittest.TestCase):
    def told_full(self, server):
        small = b'{"a":1}'
        seen = server.put("kept", small).revision
        answer = server.put("kept", b'{"a":"' + b"x" * 300_000 + b'"}', seen=seen)
        self.assertEqual(answer.status, 507, answer)
        said = json.loads(answer.body)
        self.assertEqual(said["code"], "disk-full")
        self.assertIn("full", said["text"])
        self.assertEqual(server.get("kept").body, small)
        self.assertEqual(files(server.jobs), ["kept.json"])
        # And there is room for little things again.
        self.assertEqual(server.put("kept", b'{"a":2}', seen=seen).status, 200)
        self.assertEqual(server.end(), (0, "Ended.\n", ""))

    def test_small_file_system(self):
        with tempfile.TemporaryDirectory() as folder:
            mount = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", folder], capture_output=True)
            if mount.returncode:
                self.skipTest("a small file system can only be mounted by root")
            try:
                self.told_full(Server(Case.tool, jobs=folder))
            finally:
                subprocess.run(["umount", folder], check=True)

    def test_limit_on_file_sizes(self):
        limit = lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (65536, 65536))  # noqa: E731
        self.told_full(Server(Case.tool, preexec_fn=limit))

    def test_folder_that_cannot_be_written(self):
        server = Server(Case.tool)
        seen = server.put("kept", b"{}").revision
        moved = server.jobs.with_name("moved")
        server.jobs.rename(moved)
        self.assertEqual(server.put("kept", b'{"a":1}', seen=seen).status, 200)  # the folder, wherever it is
        for path in moved.iterdir():
            path.unlink()
        moved.rmdir()
        answer = server.put("new", b"{}")
        self.assertEqual((answer.status, json.loads(answer.body)["code"]), (500, "cannot-write"))
        self.assertTrue(server.healthy())
        self.assertEqual(server.end(), (0, "Ended.\n", ""))

    def test_bin_that_is_a_link(self):
        server = Server(Case.tool)
        elsewhere = server.jobs.with_name("elsewhere")
        elsewhere.mkdir()
        (server.jobs / "bin").symlink_to(elsewhere)
        seen = server.put("kept", b"{}").revision
        answer = server.ask("DELETE", "/api/jobs/kept", If_Match=f'"{seen}"')
        self.assertEqual((answer.status, json.loads(answer.body)["code"]), (500, "cannot-write"))
        self.assertEqual((server.get("kept").status, files(elsewhere)), (200, []))
        self.assertEqual(server.end(), (0, "Ended.\n", ""))


if __name__ == "__main__":
    main(sys.argv)
