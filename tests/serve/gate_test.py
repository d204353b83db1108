"""gate_test.py LAPWRIGHT: who may ask: names of the host, other sites, the token beyond this machine."""

import re
import socket
import subprocess
import sys
import unittest

from served import INDEX, Case, Server, main, parse


class Hosts(Case):
    """A name that an attacker has made to point here is not this server's name."""

    def test_own_names(self):
        for host in ("127.0.0.1", "localhost", "LocalHost"):
            self.assertEqual(self.server.ask("GET", "/", host=f"{host}:{self.server.port}").status, 200, host)

    def test_others(self):
        port = self.server.port
        for host in ("", "127.0.0.1", "localhost", f"evil.test:{port}", f"127.0.0.1.evil.test:{port}", f"[::1]:{port}",
                     f"localhost.:{port}", f"127.0.0.2:{port}", f"127.1:{port}", f"0.0.0.0:{port}", f"2130706433:{port}",
                     "localhost:80", "127.0.0.1:1", f"a@localhost:{port}", f"localhost:{port}@evil.test",
                     f"localhost:0{port}", f"localhost: {port}", f"{socket.gethostname()}:{port}"):
            for path in ("/", "/api/jobs", "/api/health"):
                answer = self.server.ask("GET", path, host=host)
                self.assertEqual(answer.status, 421, (host, path))
                self.assertNotIn(INDEX, answer.body)

    def test_before_a_job_is_written(self):
        self.assertEqual(self.server.put("rebound", b"{}", host=f"evil.test:{self.server.port}").status, 421)
        self.assertEqual(self.server.get("rebound").status, 404)


class Sites(Case):
    def test_own(self):
        here = f"http://127.0.0.1:{self.server.port}"
        answer = self.server.put("own", b"{}", Origin=here, Sec_Fetch_Site="same-origin", Sec_Fetch_Mode="cors")
        self.assertEqual(answer.status, 201)
        self.assertEqual(self.server.ask("GET", "/api/jobs", Sec_Fetch_Site="none").status, 200)

    def test_others(self):
        port = self.server.port
        for fields in ({"Origin": "http://evil.test"}, {"Origin": "null"}, {"Origin": ""},
                       {"Origin": f"https://127.0.0.1:{port}"}, {"Origin": f"http://localhost:{port}"},
                       {"Origin": "http://127.0.0.1:1"}, {"Origin": f"http://127.0.0.1:{port}.evil.test"},
                       {"Sec_Fetch_Site": "cross-site"}, {"Sec_Fetch_Site": "same-site"},
                       {"Sec_Fetch_Site": "cross-site", "Sec_Fetch_Mode": "no-cors"},
                       {"Sec_Fetch_Site": "cross-site", "Sec_Fetch_Mode": "navigate"}):
            with self.subTest(fields):
                self.assertEqual(self.server.put("other", b"{}", **fields).status, 403)
                self.assertEqual(self.server.ask("GET", "/api/jobs", **fields).status, 403)
        self.assertEqual(self.server.get("other").status, 404)

    def test_a_link_from_elsewhere_may_lead_to_the_page(self):
        answer = self.server.ask("GET", "/", Sec_Fetch_Site="cross-site", Sec_Fetch_Mode="navigate")
        self.assertEqual(answer.status, 200)

    def test_no_other_site_is_ever_invited(self):
        """A browser asks first before it sends PUT for another site; nothing in the answer lets it."""
        for answer in (self.server.ask("OPTIONS", "/api/jobs/a", Origin="http://evil.test",
                                       Access_Control_Request_Method="PUT"),
                       self.server.ask("OPTIONS", "/api/jobs/a"), self.server.ask("GET", "/"), self.server.get("a")):
            self.assertFalse([n for n, _ in answer.fields if n.startswith("access-control")])
        self.assertEqual(self.server.ask("OPTIONS", "/api/jobs/a").status, 405)

    def test_a_form_of_another_site_writes_nothing(self):
        for kind in ("text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x"):
            self.assertEqual(self.server.put("form", b"{}", Content_Type=kind).status, 415)
            self.assertEqual(self.server.ask("POST", "/api/jobs/form", b"{}", Content_Type=kind).status, 405)


    def test_a_body_without_a_kind(self):
        got = self.server.raw(f"PUT /api/jobs/kind HTTP/1.1\r\nHost: 127.0.0.1:{self.server.port}\r\nContent-Length: 2\r\n"
                              "If-None-Match: *\r\n\r\n{}".encode())
        self.assertEqual(parse(got).status, 415)

    def test_a_refused_body_is_no_request(self):
        """What another site sends as a body is not read as a request of its own."""
        host = f"Host: 127.0.0.1:{self.server.port}\r\n"
        inner = f"GET /api/jobs HTTP/1.1\r\n{host}\r\n"
        got = self.server.raw((f"PUT /api/jobs/a HTTP/1.1\r\n{host}Origin: http://evil.test\r\n"
                               f"Content-Length: {len(inner)}\r\n\r\n{inner}").encode())
        self.assertEqual((parse(got).status, parse(got).rest), (403, b""))


class Token(Case):
    words = ("--listen", "0.0.0.0")

    @property
    def cookie(self):
        return f"lapwright-{self.server.port}={self.server.token}"

    def tearDown(self):
        self.assertEqual(self.server.ask("GET", "/api/health", Cookie=self.cookie).status, 200)

    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        if cls.server.token is None:
            cls.server.end()
            raise unittest.SkipTest("this machine has no address beyond itself")

    def test_it_is_long_and_new_each_time(self):
        other = Server(Case.tool, *self.words)
        other.end()
        self.assertRegex(self.server.token, r"\A[0-9a-f]{32}\Z")
        self.assertNotEqual(self.server.token, other.token)

    def test_nothing_without_it(self):
        name = f"lapwright-{self.server.port}"
        for cookie in (None, "", self.server.token, f"{name}=", f"{name}={self.server.token[:-1]}",
                       f"{name}={self.server.token}x", f"{name}={self.server.token.upper()}",
                       f"x{self.cookie}", f"lapwright-1={self.server.token}", f"{name}={'0' * 32}"):
            fields = {} if cookie is None else {"Cookie": cookie}
            for path in ("/", "/sw.js", "/api/health", "/api/jobs", "/nothing"):
                answer = self.server.ask("GET", path, **fields)
                if cookie is not None and cookie.upper() == self.cookie.upper() and cookie == self.cookie:
                    continue
                self.assertEqual(answer.status, 401, (cookie, path))
            self.assertEqual(self.server.put("stolen", b"{}", **fields).status, 401)
        self.assertEqual(self.server.ask("GET", "/api/jobs/stolen", Cookie=self.cookie).status, 404)

    def test_the_link_gives_it(self):
        answer = self.server.ask("GET", f"/?token={self.server.token}")
        self.assertEqual((answer.status, answer.one("location")), (303, "/"))
        self.assertEqual(answer.one("set-cookie"), self.cookie + "; Path=/; HttpOnly; SameSite=Lax")
        self.assertEqual(self.server.ask("GET", "/", Cookie="a=b; " + self.cookie + "; c=d").body, INDEX)

    def test_a_wrong_link_gives_none(self):
        for query in ("token=", "token=" + "0" * 32, f"token={self.server.token}&x=1", f"x=1&token={self.server.token}",
                      f"TOKEN={self.server.token}"):
            answer = self.server.ask("GET", "/?" + query)
            self.assertEqual(answer.status, 401, query)
            self.assertFalse(answer.has("set-cookie"))
        self.assertEqual(self.server.ask("PUT", f"/api/jobs/a?token={self.server.token}", b"{}").status, 401)

    def test_the_host_is_judged_too(self):
        for host in (f"evil.test:{self.server.port}", f"0.0.0.0:{self.server.port}"):
            self.assertEqual(self.server.ask("GET", "/", host=host, Cookie=self.cookie).status, 421)

    def test_it_is_never_in_an_answer(self):
        for path in ("/", "/api/health", "/api/jobs", "/nothing"):
            answer = self.server.ask("GET", path, Cookie=self.cookie)
            self.assertNotIn(self.server.token, repr(answer.fields) + answer.body.decode("latin-1"))

    def test_every_link_that_was_printed_opens(self):
        links = [line for line in self.server.said if "http://" in line]
        self.assertTrue(links)
        for line in links:
            host, port = re.search(r"http://([^/]+):(\d+)/\?token=", line).groups()
            self.server.address = host
            try:
                answer = self.server.ask("GET", "/", host=f"{host}:{port}", Cookie=self.cookie)
                near = self.server.ask("GET", "/", host=f"localhost:{port}", Cookie=self.cookie)
                named = self.server.ask("GET", "/", host=f"{socket.gethostname()}:{port}", Cookie=self.cookie)
            finally:
                self.server.address = "127.0.0.1"
            self.assertEqual(answer.body, INDEX)
            self.assertEqual(near.status, 421)  # nobody beyond this machine calls it that
            self.assertEqual(named.status, 200)


class Listening(unittest.TestCase):
    def test_this_machine_alone_unless_told(self):
        server = Server(Case.tool)
        self.assertIsNone(server.token)
        self.assertEqual(server.said[0], f"The page: http://127.0.0.1:{server.port}/")
        for line in subprocess.run(["hostname", "-I"], capture_output=True, text=True).stdout.split():
            if "." in line:
                with self.assertRaises(OSError):
                    socket.create_connection((line, server.port), timeout=5)
        self.assertEqual(server.end(), (0, "Ended.\n", ""))

    def test_the_newer_family(self):
        try:
            with socket.socket(socket.AF_INET6) as probe:
                probe.bind(("::1", 0))
        except OSError:
            self.skipTest("this machine has no IPv6")
        server = Server(Case.tool, "--listen", "::1")
        server.address = "::1"
        self.assertIsNone(server.token)
        self.assertEqual(server.ask("GET", "/", host=f"[::1]:{server.port}").status, 200)
        self.assertEqual(server.ask("GET", "/", host=f"127.0.0.1:{server.port}").status, 421)
        self.assertEqual(server.end(), (0, "Ended.\n", ""))


if __name__ == "__main__":
    main(sys.argv)
