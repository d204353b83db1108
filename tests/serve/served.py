"""A server for a test: started on any free port, spoken to byte by byte, and ended with its last words looked at."""

import contextlib
import os
import pathlib
import re
import signal
import socket
import subprocess
import tempfile
import unittest

INDEX = b"<!doctype html><title>page</title>"
FILES = {
    "index.html": INDEX,
    "lapwright.html": b"<!doctype html><script>1</script>",
    "sw.js": b"self.addEventListener('fetch', () => {});",
    "manifest.webmanifest": b'{"name":"lapwright"}',
    "assets/engine-1a2b.wasm": b"\0asm\1\0\0\0" + bytes(range(256)) * 32768,  # more than sockets hold
    "assets/page-3c4d.js": b"1;",
    "assets/page-3c4d.css": b"a{}",
    "icon.svg": b"<svg xmlns='http://www.w3.org/2000/svg'/>",
    "icon.png": b"\x89PNG",
}


class Answer:
    def __init__(self, status, fields, body, rest=b""):
        self.status, self.fields, self.body, self.rest = status, fields, body, rest

    def __repr__(self):
        return f"{self.status} {self.fields} {self.body[:200]!r}"

    def one(self, name):
        found = [value for key, value in self.fields if key == name]
        assert len(found) == 1, (name, self)
        return found[0]

    def has(self, name):
        return any(key == name for key, _ in self.fields)

    @property
    def revision(self):
        return self.one("etag").strip('"')


def parse(data):
    """The first answer in these bytes; what follows it is its `rest`."""
    head, mark, body = data.partition(b"\r\n\r\n")
    assert mark, data[:200]
    first, *lines = head.decode("latin-1").split("\r\n")
    assert re.fullmatch(r"HTTP/1\.1 \d{3} [A-Za-z ]+", first), first
    fields = []
    for line in lines:
        name, colon, value = line.partition(": ")
        assert colon and re.fullmatch(r"[A-Za-z-]+", name), line
        fields.append((name.lower(), value))
    status = int(first.split()[1])
    length = next((int(v) for n, v in fields if n == "content-length"), 0)
    return Answer(status, fields, body[:length], body[length:])


class Server:
    def __init__(self, tool, *words, page=None, jobs=None, port=0, **more):
        self.scratch = tempfile.TemporaryDirectory()
        top = pathlib.Path(self.scratch.name)
        self.page = pathlib.Path(page or top / "page")
        self.jobs = pathlib.Path(jobs or top / "jobs")
        if page is None:
            for name, data in FILES.items():
                (self.page / name).parent.mkdir(parents=True, exist_ok=True)
                (self.page / name).write_bytes(data)
        self.process = subprocess.Popen(
            [tool, "serve", "--port", str(port), "--page", str(self.page), "--jobs", str(self.jobs), *map(str, words)],
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, **more)
        self.said = []
        self.port, self.token, self.address = None, None, "127.0.0.1"
        for line in self.process.stdout:
            self.said.append(line.decode().rstrip("\n"))
            found = re.search(r"http://(\S+):(\d+)/(?:\?token=(\S+))?", self.said[-1])
            if found and self.port is None:
                self.port, self.token = int(found.group(2)), found.group(3)
            if self.said[-1] == "Ctrl-C ends it.":
                break
        else:
            out, err = self.process.communicate(timeout=30)
            self.scratch.cleanup()
            raise AssertionError(f"it did not begin: {self.said} {err!r}")

    def connect(self, timeout=30):
        return socket.create_connection((self.address, self.port), timeout=timeout)

    def raw(self, data, timeout=30, half_close=False):
        """Everything that comes back for these bytes until the other side ends."""
        with self.connect(timeout) as link:
            with contextlib.suppress(BrokenPipeError, ConnectionResetError):
                link.sendall(data)
                if half_close:
                    link.shutdown(socket.SHUT_WR)
            return self.rest_of(link)

    @staticmethod
    def rest_of(link):
        got = b""
        with contextlib.suppress(ConnectionResetError):
            while part := link.recv(65536):
                got += part
        return got

    def ask(self, method, path, body=None, timeout=30, host=None, **fields):
        host = f"127.0.0.1:{self.port}" if host is None else host
        lines = [f"{method} {path} HTTP/1.1", f"Host: {host}", "Connection: close"]
        if body is not None:
            fields.setdefault("Content_Type", "application/json")
            lines.append(f"Content-Length: {len(body)}")
        lines += [f"{name.replace('_', '-')}: {value}" for name, value in fields.items()]
        return parse(self.raw("\r\n".join(lines).encode("latin-1") + b"\r\n\r\n" + (body or b""), timeout))

    def put(self, name, body, seen=None, **fields):
        if seen is None:
            fields.setdefault("If_None_Match", "*")
        else:
            fields.setdefault("If_Match", f'"{seen}"')
        return self.ask("PUT", f"/api/jobs/{name}", body, **fields)

    def get(self, name):
        return self.ask("GET", f"/api/jobs/{name}")

    def healthy(self):
        return self.ask("GET", "/api/health", timeout=5).status == 200

    def end(self, how=signal.SIGTERM):
        """Its exit status and what it still said on either stream."""
        if self.process.poll() is None:
            self.process.send_signal(how)
        out, err = self.process.communicate(timeout=30)
        self.scratch.cleanup()
        return self.process.returncode, out.decode(), err.decode()


class Case(unittest.TestCase):
    """Tests that share one server. However they treat it, it must end cleanly: a sanitizer's words would be on stderr."""
    tool = None
    words = ()

    @classmethod
    def setUpClass(cls):
        cls.server = Server(cls.tool, *cls.words)

    @classmethod
    def tearDownClass(cls):
        status, out, err = cls.server.end()
        assert (status, out, err) == (0, "Ended.\n", ""), (status, out, err)

    def tearDown(self):
        self.assertTrue(self.server.healthy())


def main(argv):
    Case.tool = os.path.abspath(argv.pop(1))
    unittest.main(module="__main__", argv=argv)
