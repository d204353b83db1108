"""http_test.py LAPWRIGHT: what is no sound HTTP is refused, what is too much too, and the slow hold up nobody."""

import os
import random
import socket
import sys
import time
import unittest

from served import FILES, INDEX, Case, Server, main, parse


def request(*lines, body=b""):
    return "\r\n".join(lines).encode("latin-1") + b"\r\n\r\n" + body


class Malformed(Case):
    def refused(self, data, *statuses):
        answer = parse(self.server.raw(data))
        self.assertIn(answer.status, statuses, (data[:80], answer))
        self.assertEqual(answer.one("connection"), "close")
        self.assertEqual(answer.body.count(b"\n"), 1)  # one line for a person

    @property
    def host(self):
        return f"Host: 127.0.0.1:{self.server.port}"

    def test_first_line(self):
        for first, *statuses in (
            ("GET", 400), ("GET /", 400), ("GET  / HTTP/1.1", 400, 505), ("GET / HTTP/1.1 ", 505), ("G@T / HTTP/1.1", 400),
            ("GET / HTTP/2.0", 505), ("GET / HTTP/0.9", 505), ("GET / http/1.1", 505), ("GET / HTTP/1.10", 505),
            ("GET index.html HTTP/1.1", 400), ("GET http://127.0.0.1/ HTTP/1.1", 400), ("GET * HTTP/1.1", 400),
            ("CONNECT example.test:443 HTTP/1.1", 400), ("GET /\x01 HTTP/1.1", 400), ("GET /\xe4 HTTP/1.1", 400),
            ("GET /#x HTTP/1.1", 400), ("GET /\t HTTP/1.1", 400), ("\x16\x03\x01\x02\x00", 400), (" GET / HTTP/1.1", 400),
            ("", 400), ("PRI * HTTP/2.0", 505), ("GET /" + "a" * 2100 + " HTTP/1.1", 414),
        ):
            with self.subTest(first[:40]):
                self.refused(request(first, self.host), *statuses)

    def test_fields(self):
        for line, status in (
            ("No colon", 400), ("Space : 1", 400), (": nameless", 400), (" Folded: 1", 400), ("X: a\x00b", 400),
            ("X: a\x7fb", 400), ("X\xe4: 1", 400), ("Content-Length: -1", 400), ("Content-Length: 1e3", 400),
            ("Content-Length: +1", 400), ("Content-Length: ", 400), ("Content-Length: 0x10", 400),
            ("Content-Length: 99999999999999999999999", 400), ("Content-Length: 1, 1", 400),
            ("Transfer-Encoding: chunked", 411), ("Transfer-Encoding: gzip", 411), ("Expect: tea", 417),
            ("Host: other", 400), ("Content-Length: 0\r\nContent-Length: 0", 400),
            ("Content-Length: 0\r\nTransfer-Encoding: chunked", 400), ("Cookie: a=1\r\nCookie: b=2", 400),
            ("Origin: http://a\r\norigin: http://b", 400),
        ):
            with self.subTest(line):
                self.refused(request("GET / HTTP/1.1", self.host, line), status)

    def test_line_ends(self):
        host = self.host.encode()
        for data in (b"GET / HTTP/1.1\n" + host + b"\n\n", b"GET / HTTP/1.1\r\n" + host + b"\nX: 1\r\n\r\n",
                     b"GET / HTTP/1.1\r\n" + host + b"\rX: 1\r\n\r\n", b"GET / HTTP/1.1\n\r\n" + host + b"\r\n\r\n"):
            with self.subTest(data):
                self.refused(data, 400)

    def test_no_host(self):
        self.refused(request("GET / HTTP/1.1", "X: 1"), 400)

    def test_too_much(self):
        self.refused(request("GET / HTTP/1.1", self.host, "X: " + "a" * 20_000), 431)
        self.refused(request("GET / HTTP/1.1", self.host, *(f"X{i}: 1" for i in range(100))), 431)
        self.refused(request("GET / HTTP/1.1", self.host, *("A: 1" for _ in range(20_000))), 431)
        self.refused(b"GET / HTTP/1.1\r\n" + b"X" * 5_000_000, 431)

    def test_noise(self):
        draw = random.Random(5)
        good = request("PUT /api/jobs/a HTTP/1.1", self.host, "Content-Length: 2", "If-None-Match: *",
                       "Content-Type: application/json", body=b"{}")
        seen = set()
        for _ in range(400):
            data = bytearray(good)
            for _ in range(draw.randint(1, 6)):
                at = draw.randrange(len(data))
                data[at:at + draw.randint(0, 3)] = draw.randbytes(draw.randint(0, 4))
            got = self.server.raw(bytes(data), half_close=True)
            if got:  # a part of a request that then ends is answered with nothing
                seen.add(parse(got).status)
        self.assertLess(seen, {200, 201, 400, 403, 404, 405, 411, 412, 413, 415, 417, 421, 428, 505})
        self.assertTrue({400, 421} < seen, seen)
        for length in (1, 10, 100, 1000):
            for _ in range(20):
                self.server.raw(draw.randbytes(length), half_close=True)

    def test_cut_anywhere(self):
        """The same answer however the bytes arrive, one by one too."""
        data = request("GET /sw.js HTTP/1.1", self.host, "Connection: close")
        whole = self.server.raw(data)
        self.assertEqual(parse(whole).status, 200)
        with self.server.connect() as link:
            link.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            for i in range(len(data)):
                link.sendall(data[i:i + 1])
            self.assertEqual(self.server.rest_of(link), whole)


class Bodies(Case):
    def test_too_big_is_told_before_it_is_sent(self):
        for length in (8_000_001, 10**9, 10**14):
            answer = parse(self.server.raw(request(
                "PUT /api/jobs/a HTTP/1.1", f"Host: 127.0.0.1:{self.server.port}", f"Content-Length: {length}",
                "Content-Type: application/json", "If-None-Match: *")))
            self.assertEqual(answer.status, 413)
            self.assertIn(b"8 MB", answer.body)

    def test_too_big_is_told_while_it_is_sent(self):
        """The client can send all that it has, and still finds the answer, not a broken connection."""
        head = request("PUT /api/jobs/big HTTP/1.1", f"Host: 127.0.0.1:{self.server.port}", "Content-Length: 9000000",
                       "Content-Type: application/json", "If-None-Match: *")
        with self.server.connect() as link:
            link.sendall(head)
            time.sleep(0.2)
            for _ in range(9):
                link.sendall(b"x" * 1_000_000)
            got = b""
            while part := link.recv(65536):
                got += part
        self.assertEqual(parse(got).status, 413)

    def test_largest(self):
        body = b'{"a":"' + b"x" * (8_000_000 - 8) + b'"}'
        self.assertEqual(len(body), 8_000_000)
        self.assertEqual(self.server.put("largest", body).status, 201)
        self.assertEqual(self.server.get("largest").body, body)

    def test_go_ahead(self):
        head = request("PUT /api/jobs/asks-first HTTP/1.1", f"Host: 127.0.0.1:{self.server.port}", "Content-Length: 2",
                       "Content-Type: application/json", "If-None-Match: *", "Expect: 100-continue", "Connection: close")
        with self.server.connect() as link:
            link.sendall(head)
            self.assertEqual(link.recv(1000), b"HTTP/1.1 100 Continue\r\n\r\n")
            link.sendall(b"{}")
            self.assertEqual(parse(self.server.rest_of(link)).status, 201)
        # Who may not write hears so instead, and sends nothing.
        refused = parse(self.server.raw(head.replace(b"Expect", b"Origin: http://other.test\r\nExpect")))
        self.assertEqual(refused.status, 403)

    def test_body_where_none_belongs(self):
        self.assertEqual(self.server.ask("GET", "/", b"hello").status, 400)
        self.assertEqual(self.server.ask("DELETE", "/api/jobs/a", b"{}").status, 400)

    def test_one_after_the_other(self):
        """Several requests at once on one connection: answered in order, each once."""
        host = f"Host: 127.0.0.1:{self.server.port}"
        names = ("/", "/sw.js", "/nothing", "/api/health") * 25
        data = b"".join(request(f"GET {name} HTTP/1.1", host) for name in names)
        data += request("HEAD / HTTP/1.1", host) + request("GET / HTTP/1.0", host)
        rest, statuses = self.server.raw(data), []
        for name in names:
            answer = parse(rest)
            statuses.append(answer.status)
            rest = answer.rest
        self.assertEqual(statuses, [200, 200, 404, 200] * 25)
        head, _, last = rest.partition(b"\r\n\r\n")
        self.assertIn(b"Content-Length: %d" % len(INDEX), head)  # of HEAD: the length, not the bytes
        self.assertEqual(parse(last).body, INDEX)


class Slow(Case):
    words = ("--patience", "1")

    def test_slow_ones_hold_up_nobody(self):
        """More clients than there is room for, each with a request that never ends."""
        links = []
        for i in range(300):
            link = self.server.connect()
            link.sendall(b"GET / HTTP/1.1\r\nX: " if i % 2 else b"")
            links.append(link)
        begin = time.monotonic()
        for _ in range(20):
            self.assertEqual(self.server.ask("GET", "/", timeout=5).body, INDEX)
        self.assertLess(time.monotonic() - begin, 5)
        for link in links:
            link.close()

    def test_a_byte_now_and_then_wins_no_time(self):
        begin = time.monotonic()
        with self.server.connect() as link:
            link.sendall(b"GET / HTTP/1.1\r\n")
            got = b""
            link.settimeout(0.2)
            while time.monotonic() - begin < 15:
                try:
                    link.sendall(b"X")
                    got = link.recv(1000)
                    break
                except TimeoutError:
                    pass
        self.assertEqual(parse(got).status, 408)
        self.assertLess(time.monotonic() - begin, 5)

    def test_a_body_that_never_comes(self):
        head = request("PUT /api/jobs/slow HTTP/1.1", f"Host: 127.0.0.1:{self.server.port}", "Content-Length: 100",
                       "Content-Type: application/json", "If-None-Match: *")
        answer = parse(self.server.raw(head + b'{"half":'))
        self.assertEqual(answer.status, 408)
        self.assertEqual(self.server.get("slow").status, 404)

    def test_many_large_bodies(self):
        """Bodies that are announced and never sent do not fill the memory: those beyond a measure are put off."""
        head = request("PUT /api/jobs/many HTTP/1.1", f"Host: 127.0.0.1:{self.server.port}",
                       "Content-Length: 8000000", "Content-Type: application/json", "If-None-Match: *")
        links = [self.server.connect() for _ in range(12)]
        for link in links:
            link.sendall(head)
        self.assertEqual(self.server.ask("GET", "/").status, 200)
        answers = [parse(got).status for got in map(self.server.rest_of, links) if got]
        self.assertEqual(sorted(set(answers)), [408, 503])
        for link in links:
            link.close()

    def test_who_never_reads(self):
        """Its answers are given up after twice the patience, and others go on meanwhile."""
        server = Server(Case.tool, *self.words)  # one without connections of other tests

        def connections():
            return len(os.listdir(f"/proc/{server.process.pid}/fd"))
        before = connections()
        with server.connect() as link:
            link.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 4096)
            link.sendall(request("GET /assets/engine-1a2b.wasm HTTP/1.1", f"Host: 127.0.0.1:{server.port}") * 20)
            time.sleep(0.5)
            self.assertEqual(connections(), before + 1)
            self.assertEqual(server.ask("GET", "/", timeout=5).status, 200)
            time.sleep(5)
            self.assertEqual(connections(), before)
        self.assertEqual(server.end(), (0, "Ended.\n", ""))

    def test_idle_ends(self):
        begin = time.monotonic()
        self.assertEqual(self.server.raw(b""), b"")
        self.assertLess(time.monotonic() - begin, 10)


class Ends(unittest.TestCase):
    def test_with_an_answer_under_way(self):
        """The answer still arrives whole; a request that is not whole is dropped."""
        server = Server(Case.tool)
        half = server.connect()
        half.sendall(b"GET / HT")
        with server.connect() as link:
            link.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 65536)
            link.sendall(request("GET /assets/engine-1a2b.wasm HTTP/1.1", f"Host: 127.0.0.1:{server.port}"))
            time.sleep(0.3)
            got = link.recv(100)
            server.process.terminate()
            got += server.rest_of(link)
        self.assertEqual(parse(got).body, FILES["assets/engine-1a2b.wasm"])
        self.assertEqual(server.rest_of(half), b"")
        half.close()
        self.assertEqual(server.end(), (0, "Ended.\n", ""))

    def test_who_does_not_read_cannot_keep_it(self):
        server = Server(Case.tool)
        with server.connect() as link:
            link.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 4096)
            link.sendall(request("GET /assets/engine-1a2b.wasm HTTP/1.1", f"Host: 127.0.0.1:{server.port}") * 20)
            time.sleep(0.5)
            begin = time.monotonic()
            self.assertEqual(server.end(), (0, "Ended.\n", ""))
            self.assertLess(time.monotonic() - begin, 8)


if __name__ == "__main__":
    main(sys.argv)
