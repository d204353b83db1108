"""page_test.py LAPWRIGHT: the page's files and nothing else, under their right names, always the newest, never a part."""

import itertools
import os
import pathlib
import subprocess
import sys
import tempfile
import unittest

from served import FILES, INDEX, Case, Server, main, parse

TYPES = {
    ".html": "text/html; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".css": "text/css; charset=utf-8",
    ".wasm": "application/wasm", ".webmanifest": "application/manifest+json", ".svg": "image/svg+xml", ".png": "image/png",
}


class Files(Case):
    def test_each(self):
        for name, data in FILES.items():
            answer = self.server.ask("GET", "/" + name)
            self.assertEqual((answer.status, answer.body), (200, data), name)
            self.assertEqual(answer.one("content-type"), TYPES[pathlib.Path(name).suffix])
        for path in ("/", "/?x=1", "/?job=demo", "/index.html"):
            self.assertEqual(self.server.ask("GET", path).body, INDEX)

    def test_only_those(self):
        for path in ("/assets", "/assets/", "//", "/index", "/INDEX.HTML", "/index.html/", "/api", "/api/", "/favicon.ico"):
            self.assertEqual(self.server.ask("GET", path).status, 404, path)

    def test_the_page_as_one_file_is_handed_out_to_keep(self):
        self.assertEqual(self.server.ask("GET", "/lapwright.html").one("content-disposition"), "attachment")
        self.assertFalse(self.server.ask("GET", "/").has("content-disposition"))

    def test_every_answer_is_strict(self):
        for answer in (self.server.ask("GET", "/"), self.server.ask("GET", "/nothing"), self.server.ask("GET", "/api/jobs"),
                       self.server.ask("GET", "/", host="evil.test"), self.server.ask("BREW", "/"),
                       parse(self.server.raw(b"\x16\x03"))):
            policy = dict(part.strip().split(" ", 1) for part in answer.one("content-security-policy").split(";"))
            self.assertEqual(policy["default-src"], "'none'")
            self.assertEqual(policy["script-src"], "'self' 'wasm-unsafe-eval'")
            self.assertEqual(policy["worker-src"], "'self' blob:")
            self.assertEqual(policy["connect-src"], "'self'")
            self.assertEqual(policy["frame-ancestors"], "'none'")
            self.assertNotIn("unsafe-inline", str(policy))
            self.assertNotIn("http", str(policy))
            self.assertNotIn("*", str(policy))
            self.assertEqual(answer.one("x-content-type-options"), "nosniff")
            self.assertEqual(answer.one("referrer-policy"), "no-referrer")
            self.assertEqual(answer.one("cross-origin-resource-policy"), "same-origin")

    def test_a_new_version_is_seen(self):
        """Browsers ask each time, and are told when nothing changed."""
        for name in ("", "sw.js", "assets/engine-1a2b.wasm"):
            answer = self.server.ask("GET", "/" + name)
            self.assertEqual(answer.one("cache-control"), "no-cache")
            tag = answer.one("etag")
            for known in (tag, "W/" + tag, f'"other", {tag}', "*"):
                again = self.server.ask("GET", "/" + name, If_None_Match=known)
                self.assertEqual((again.status, again.body, again.one("etag")), (304, b"", tag))
            self.assertEqual(self.server.ask("GET", "/" + name, If_None_Match='"other"').status, 200)

    def test_other_bytes_have_another_tag(self):
        tags = [self.server.ask("GET", "/" + name).one("etag") for name in FILES]
        self.assertEqual(len(set(tags)), len(FILES))

    def test_never_a_part(self):
        for span in ("bytes=0-0", "bytes=-1", "bytes=0-", "bytes=" + ",".join(["0-"] * 1000), "bytes=1-0", "x"):
            answer = self.server.ask("GET", "/assets/engine-1a2b.wasm", Range=span)
            self.assertEqual((answer.status, answer.body), (200, FILES["assets/engine-1a2b.wasm"]))
            self.assertEqual(answer.one("accept-ranges"), "none")

    def test_only_reading(self):
        for method in ("POST", "PUT", "DELETE", "OPTIONS", "TRACE", "PATCH", "get", "BREW"):
            self.assertEqual(self.server.ask(method, "/index.html").status, 405, method)


class Outside(Case):
    """Whatever an address is made of, it leads to a known file or nowhere."""

    def test_no_spelling_leads_out(self):
        secret = self.server.page.parent / "secret.txt"
        secret.write_bytes(b"secret")
        (self.server.jobs / "kept.json").write_bytes(b'{"secret":1}')
        dots = ("..", "%2e%2e", "%2E.", ".%2e", "%252e%252e", "%c0%ae%c0%ae", "%e0%80%ae.", "..%00", "....", ". .", "%u002e.",
                "..;", "\\..")
        slashes = ("/", "%2f", "%5c", "\\", "%252f", "%c0%af", "//", "/./", "%2F")
        tried = 0
        for dot, slash, start in itertools.product(dots, slashes, ("/", "/assets/", "/api/jobs/", "/api/bin/", "//")):
            for end in ("secret.txt", "kept.json", "etc/passwd", "jobs/kept"):
                for depth in (1, 2, 8):
                    path = start + (dot + slash) * depth + end
                    if " " in path:
                        path = path.replace(" ", "%20")
                    answer = self.server.ask("GET", path)
                    self.assertEqual(answer.status, 404, path)
                    self.assertNotIn(b"secret", answer.body)
                    tried += 1
        self.assertGreater(tried, 5000)
        for path in (f"/{secret}", f"/file://{secret}", f"//127.0.0.1{secret}", "/proc/self/environ", "/%00", "/index.html%00",
                     "/api/jobs/..", "/api/jobs/.", "/api/jobs/%2e%2e", "/api/jobs/bin/x", "/api/bin/../kept", "/api/jobs/kept.json"):
            self.assertEqual(self.server.ask("GET", path).status, 404, path)
        self.assertEqual(self.server.ask("GET", "/api/jobs/kept").status, 200)


class Links(unittest.TestCase):
    def test_links_and_oddities_are_left_out(self):
        with tempfile.TemporaryDirectory() as name:
            top = pathlib.Path(name)
            page = top / "page"
            (page / "assets").mkdir(parents=True)
            (top / "outside").mkdir()
            (top / "outside/secret.txt").write_bytes(b"secret")
            (page / "index.html").write_bytes(INDEX)
            (page / "link.txt").symlink_to(top / "outside/secret.txt")
            (page / "folder").symlink_to(top / "outside")
            (page / "assets/up").symlink_to("..")
            (page / "assets/nowhere").symlink_to("nothing")
            (page / ".hidden").write_bytes(b"secret")
            (page / "a b.txt").write_bytes(b"secret")
            (page / "per%2ecent.txt").write_bytes(b"secret")
            os.mkfifo(page / "pipe")
            server = Server(Case.tool, page=page)
            try:
                left = [line.removeprefix("Left out of the page: ") for line in server.said if line.startswith("Left")]
                self.assertEqual(sorted(left), ["/.hidden", "/a b.txt", "/assets/nowhere", "/assets/up", "/folder",
                                                "/link.txt", "/per%2ecent.txt", "/pipe"])
                for path in ("/link.txt", "/folder/secret.txt", "/assets/up/index.html", "/.hidden", "/a%20b.txt", "/pipe",
                             "/per%2ecent.txt", "/per.cent.txt"):
                    self.assertEqual(server.ask("GET", path).status, 404, path)
                # What is put there later is not handed out either.
                (page / "late.txt").write_bytes(b"late")
                (page / "index.html").unlink()
                (page / "index.html").symlink_to(top / "outside/secret.txt")
                self.assertEqual(server.ask("GET", "/late.txt").status, 404)
                self.assertEqual(server.ask("GET", "/").body, INDEX)
            finally:
                self.assertEqual(server.end(), (0, "Ended.\n", ""))


class CannotBegin(unittest.TestCase):
    def refused(self, *words, **more):
        got = subprocess.run([Case.tool, "serve", *map(str, words)], capture_output=True, timeout=30, **more)
        self.assertEqual((got.returncode, got.stdout), (2, b""), words)
        self.assertEqual(got.stderr.count(b"\n"), 1, got.stderr)
        return got.stderr.decode()

    def test_no_page(self):
        with tempfile.TemporaryDirectory() as folder:
            for page in (folder, f"{folder}/none", "/dev/null", "/"):
                said = self.refused("--port", 0, "--page", page, "--jobs", folder)
                self.assertTrue(said.startswith(f"{page}: there is no page"), said)

    def test_no_jobs(self):
        with tempfile.TemporaryDirectory() as folder:
            pathlib.Path(folder, "index.html").write_bytes(INDEX)
            for jobs in (f"{folder}/index.html", "/proc/none"):
                self.assertIn(jobs, self.refused("--port", 0, "--page", folder, "--jobs", jobs))
            self.assertIn("--jobs", self.refused("--port", 0, "--page", folder, env={"PATH": "/bin"}))

    def test_taken_port(self):
        server = Server(Case.tool)
        said = self.refused("--port", server.port, "--page", server.page, "--jobs", server.jobs)
        self.assertIn(f"127.0.0.1:{server.port} is taken", said)
        self.assertIn("--port", said)
        self.assertTrue(server.healthy())
        port = server.port
        self.assertEqual(server.end(), (0, "Ended.\n", ""))
        again = Server(Case.tool, port=port)  # free again at once
        self.assertEqual(again.port, port)
        self.assertEqual(again.end(), (0, "Ended.\n", ""))

    def test_addresses(self):
        with tempfile.TemporaryDirectory() as folder:
            pathlib.Path(folder, "index.html").write_bytes(INDEX)
            for address in ("example.test", "127.0.0.1:80", "256.1.1.1", "", "192.0.2.1"):  # the last: for documents
                self.assertIn(address, self.refused("--port", 0, "--page", folder, "--jobs", folder, "--listen", address))

    def test_words(self):
        for words in (("--port", "70000"), ("--port", "-1"), ("--port", "x"), ("--patience", "0"), ("--loud",)):
            got = subprocess.run([Case.tool, "serve", *words], capture_output=True, timeout=30)
            self.assertEqual(got.returncode, 2, words)

    def test_help(self):
        got = subprocess.run([Case.tool, "serve", "--help"], capture_output=True, timeout=30, text=True)
        self.assertEqual((got.returncode, got.stderr), (0, ""))
        for word in ("--port", "--listen", "--jobs", "--page", "8427", "127.0.0.1"):
            self.assertIn(word, got.stdout)


if __name__ == "__main__":
    main(sys.argv)
