"""scripts/install-missing: quick when nothing is missing, asks apt for what is missing and nothing else, and says plainly
when it cannot. apt-get and sudo are stand-ins that write down how they were called.
"""

import os
import pathlib
import subprocess
import tempfile
import unittest

ROOT = pathlib.Path(__file__).resolve().parents[2]
SCRIPT = ROOT / "scripts/install-missing"
NEEDED = ("bash", "sed", "grep", "dirname", "mktemp", "tail", "rm", "env", "touch", "cat", "true")


def work_of_children():
    """Seconds of processor time: unlike a clock, they do not grow when the machine is busy with something else."""
    times = os.times()
    return times.children_user + times.children_system


class InstallMissing(unittest.TestCase):
    def setUp(self):
        self._folder = tempfile.TemporaryDirectory()
        self.root = pathlib.Path(self._folder.name)
        self.bin = self.root / "bin"
        self.bin.mkdir()
        for name in NEEDED:
            for place in ("/usr/bin", "/bin"):
                if os.path.exists(f"{place}/{name}"):
                    (self.bin / name).symlink_to(f"{place}/{name}")
                    break
        self.command("sudo", 'shift_n=0; [ "$1" = -n ] && exit 0; exec "$@"')

    def tearDown(self):
        self._folder.cleanup()

    def command(self, name, body):
        path = self.bin / name
        path.write_text(f"#!/bin/bash\n{body}\n")
        path.chmod(0o755)

    def apt(self, then=""):
        self.command("apt-get", f'echo "$@" >> {self.root}/asked\ncase "$*" in *install*) {then or ":"} ;; esac')

    def run_with(self, packages, *groups):
        listing = self.root / "packages.txt"
        listing.write_text(packages)
        run = subprocess.run([str(self.bin / "bash"), str(SCRIPT), *groups], capture_output=True, text=True,
                             stdin=subprocess.DEVNULL,
                             env={"PATH": str(self.bin), "LAPWRIGHT_PACKAGES": str(listing)})
        asked = self.root / "asked"
        lines = asked.read_text().splitlines() if asked.exists() else []
        return run, [line for line in lines if " install " in f" {line} "], lines

    def test_quick_and_silent_when_nothing_is_missing(self):
        self.apt()
        self.command("node", "echo v20.20.2")
        start = work_of_children()
        run, installs, asked = self.run_with("page npm command bash\npage nodejs command node 18\n", "page")
        self.assertLess(work_of_children() - start, 1)
        self.assertEqual((run.returncode, run.stdout, run.stderr, asked), (0, "", "", []))

    def test_the_real_list_is_quick(self):
        start = work_of_children()
        subprocess.run([str(SCRIPT), "build", "test"], check=True)
        self.assertLess(work_of_children() - start, 1)

    def test_asks_only_for_what_is_missing(self):
        self.apt(f"touch {self.root}/header.h")
        packages = f"build g++ command bash\nbuild lib-a file {self.root}/header.h\nbuild lib-b file /bin/sh\n"
        run, installs, asked = self.run_with(packages, "build")
        self.assertEqual(run.returncode, 0, run.stderr)
        self.assertEqual(len(installs), 1)
        self.assertTrue(installs[0].endswith("--no-install-recommends lib-a"), installs)
        self.assertIn("update", asked[0])

    def test_other_groups_are_left_alone(self):
        self.apt()
        run, installs, asked = self.run_with("build g++ command bash\npage chromium command no-such\n", "build")
        self.assertEqual((run.returncode, asked), (0, []))

    def test_never_asks_for_npm_where_npm_answers(self):
        self.apt(f"touch {self.root}/header.h")
        self.command("npm", "echo 11.0.0")
        self.command("node", "echo v20.20.2")
        packages = f"page npm command npm\npage nodejs command node 18\npage lib-a file {self.root}/header.h\n"
        run, installs, _ = self.run_with(packages, "page")
        self.assertEqual(run.returncode, 0, run.stderr)
        self.assertTrue(installs[0].endswith(" lib-a"), installs)

    def test_a_command_too_old_is_missing(self):
        self.command("node", "echo v16.20.2")
        self.apt()
        run, installs, _ = self.run_with("page nodejs command node 18\n", "page")
        self.assertEqual(run.returncode, 1)
        self.assertTrue(installs[0].endswith(" nodejs"))
        self.assertIn("no node of version 18", run.stderr)

    def test_says_so_when_apt_cannot(self):
        self.apt("echo 'E: Unable to locate package lib-a'; exit 100")
        run, _, _ = self.run_with(f"build lib-a file {self.root}/none.h\n", "build")
        self.assertEqual(run.returncode, 1)
        self.assertIn("Unable to locate", run.stderr)
        self.assertIn("apt-get install --no-install-recommends lib-a", run.stderr)

    def test_says_so_without_apt(self):
        run, _, _ = self.run_with(f"build lib-a file {self.root}/none.h\n", "build")
        self.assertEqual(run.returncode, 1)
        self.assertIn("no apt-get here", run.stderr)

    @unittest.skipIf(os.geteuid() != 0, "needs root to become someone else")
    def test_says_so_without_root(self):
        self.apt()
        (self.bin / "sudo").unlink()
        self.root.chmod(0o755)
        listing = self.root / "packages.txt"
        listing.write_text(f"build lib-a file {self.root}/none.h\n")
        copy = self.root / "install-missing"
        copy.write_text(SCRIPT.read_text())
        copy.chmod(0o755)
        run = subprocess.run([str(self.bin / "bash"), str(copy), "build"], capture_output=True, text=True, user=65534,
                             env={"PATH": str(self.bin), "LAPWRIGHT_PACKAGES": str(listing)}, cwd="/")
        self.assertEqual(run.returncode, 1)
        self.assertIn("needs root", run.stderr)

    def test_an_unknown_group_is_refused(self):
        run, _, _ = self.run_with("build g++ command bash\n", "attic")
        self.assertEqual(run.returncode, 1)
        self.assertIn("no group 'attic'", run.stderr)


if __name__ == "__main__":
    unittest.main()
