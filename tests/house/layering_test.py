"""layering.py sees a planted wrong direction, and lets the right one pass."""

import pathlib
import tempfile
import unittest

import layering


def tree(files):
    folder = tempfile.TemporaryDirectory()
    root = pathlib.Path(folder.name)
    (root / "apps").mkdir()
    for name, text in files.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder, root


class Layering(unittest.TestCase):
    def graph(self, text):
        folder, root = tree({"src/CMakeLists.txt": text})
        with folder:
            return layering.graph_breaches(root)

    def includes(self, name, line):
        folder, root = tree({name: line + "\n"})
        with folder:
            return layering.include_breaches(root)

    def test_graph(self):
        good = "lapwright_module(base)\nlapwright_module(geom DEPS base)\n"
        self.assertEqual(self.graph(good), [])
        self.assertTrue(self.graph(good + "lapwright_module(draw DEPS geom job)\n"))
        self.assertTrue(self.graph(good + "lapwright_module(job PRIVATE_DEPS practice)\n"))
        self.assertTrue(self.graph(good + "lapwright_module(attic DEPS base)\n"))

    def test_graph_is_followed_to_the_end(self):
        text = "lapwright_module(base)\nlapwright_module(geom DEPS base setout)\nlapwright_module(setout DEPS base)\n"
        self.assertIn("src/CMakeLists.txt: geom may not reach setout", self.graph(text))

    def test_a_ring_is_refused(self):
        with self.assertRaises(SystemExit):
            self.graph("lapwright_module(base DEPS geom)\nlapwright_module(geom DEPS base)\n")

    def test_includes(self):
        self.assertEqual(self.includes("src/check/a.cpp", "#include <lapwright/practice/pack.h>"), [])
        self.assertTrue(self.includes("src/check/a.cpp", "#include <lapwright/pieces/soaker.h>"))
        self.assertTrue(self.includes("src/pieces/a.cpp", "#include <lapwright/setout/courses.h>"))
        self.assertTrue(self.includes("src/draw/a.cpp", "#include <lapwright/job/survey.h>"))
        self.assertEqual(self.includes("apps/cli/main.cpp", "#include <lapwright/engine/engine.h>"), [])
        self.assertTrue(self.includes("apps/cli/main.cpp", "#include <lapwright/job/survey.h>"))


if __name__ == "__main__":
    unittest.main()
