"""open_test.py LAPWRIGHT: scripts/open-demo serves the page, says where the demo is, and opens it where there is a screen."""

import os
import pathlib
import re
import signal
import subprocess
import sys
import tempfile
import time
import unittest

from served import INDEX, Case, Server, main

OPEN = pathlib.Path(__file__).resolve().parents[2] / "scripts/open-demo"


class Open(unittest.TestCase):
    def setUp(self):
        held = tempfile.TemporaryDirectory()
        self.addCleanup(held.cleanup)
        self.top = pathlib.Path(held.name)
        (self.top / "page").mkdir()
        (self.top / "page/index.html").write_bytes(INDEX)
        browser = self.top / "bin/xdg-open"
        browser.parent.mkdir()
        browser.write_text(f'#!/bin/sh\necho "$1" > {self.top}/opened.part\nmv {self.top}/opened.part {self.top}/opened\n')
        browser.chmod(0o755)

    def start(self, *words, **surroundings):
        kept = {k: v for k, v in os.environ.items() if k not in ("DISPLAY", "WAYLAND_DISPLAY")}
        return subprocess.Popen(
            [OPEN, Case.tool, self.top / "page", "--jobs", self.top / "jobs", *map(str, words)], text=True,
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True,
            env=kept | {"PATH": f"{self.top}/bin:{os.environ['PATH']}"} | surroundings)

    def demo_said_by(self, process):
        for line in process.stdout:
            if found := re.search(r"^The demo: (http://127\.0\.0\.1:\d+/#/demo)$", line):
                return found.group(1)
        self.fail(process.communicate())

    def opened(self):
        for _ in range(100):
            if (self.top / "opened").exists():
                return (self.top / "opened").read_text().strip()
            time.sleep(0.05)
        return None

    def test_with_a_screen(self):
        for screen in ("DISPLAY", "WAYLAND_DISPLAY"):
            process = self.start("--port", 0, **{screen: ":9"})
            demo = self.demo_said_by(process)
            self.assertEqual(self.opened(), demo)
            (self.top / "opened").unlink()
            os.killpg(process.pid, signal.SIGINT)  # as a terminal does at Ctrl-C
            out, err = process.communicate(timeout=30)
            self.assertEqual((process.returncode, err), (0, ""))
            self.assertTrue(out.endswith("Ended.\n"), out)

    def test_without_one(self):
        process = self.start("--port", 0)
        self.demo_said_by(process)
        process.terminate()  # it alone: the server must not outlive it
        out, _ = process.communicate(timeout=30)
        self.assertEqual(process.returncode, 0)
        self.assertTrue(out.endswith("Ended.\n"), out)
        self.assertFalse((self.top / "opened").exists())

    def test_taken_port(self):
        other = Server(Case.tool)
        process = self.start("--port", other.port, DISPLAY=":9")
        out, err = process.communicate(timeout=30)
        self.assertEqual((process.returncode, out), (2, ""))
        self.assertIn("is taken", err)
        self.assertFalse((self.top / "opened").exists())
        self.assertEqual(other.end(), (0, "Ended.\n", ""))


if __name__ == "__main__":
    main(sys.argv)
