"""source_rules.py sees one planted breach of each rule, and lets the innocent twin pass."""

import pathlib
import tempfile
import unittest

import source_rules

# rule: (breaches, innocents)
CASES = {
    "header": (["#include <fstream>", "#  include <chrono>", "#include <unordered_map>"], ["#include <map>", "#include <string>"]),
    "throw": (["void f() { throw 1; }", "void f() { try { g(); } catch (...) {} }"], ["// may throw", 'auto s = "throw";']),
    "output": (['void f() { std::printf("x"); }', "auto& o = std::cout;"], ['auto s = fmt::format("x");']),
    "environment": (['auto e = std::getenv("HOME");'], ["int environment(int a);"]),
    "random": (["int r = rand();", "std::uniform_int_distribution<int> d;"], ["int grand(int a); int x = grand(1);"]),
    "clock": (["auto t = time(nullptr);", "auto t = std::time(nullptr);"], ["auto t = work.time(2);", "int labour_time(int a);"]),
    "libm": (["double y = std::sin(x);", "double y = std::pow(x, 2);"], ["double y = sin(Angle::degrees(x));", "double y = std::sqrt(x);"]),
    "text-to-number": (["double d = std::stod(text);"], ["double d = read_number(text);"]),
    "state": (["static int count = 0;", "int f() { static std::vector<int> cache; return 1; }", "thread_local int x;"],
              ["static constexpr int kCount = 1;", "struct A { static A make(int b); };", "int y = static_cast<int>(x);"]),
    "up": (['#include "../pieces/soaker.h"'], ['#include "soaker.h"']),
    "json": (["#include <nlohmann/json.hpp>"], ["#include <fmt/core.h>"]),
}


def rules_found(code, name="src/pieces/a.cpp"):
    with tempfile.TemporaryDirectory() as folder:
        root = pathlib.Path(folder)
        path = root / name
        path.parent.mkdir(parents=True)
        path.write_text(code + "\n", encoding="utf-8")
        return {rule for _, _, rule, _ in source_rules.findings(root)[0]}


class SourceRules(unittest.TestCase):
    def test_each_rule_has_a_case(self):
        self.assertEqual(set(CASES), {rule for rule, _, _ in source_rules.RULES})

    def test_breaches_are_seen(self):
        for rule, (breaches, _) in CASES.items():
            for code in breaches:
                self.assertEqual(rules_found(code), {rule}, code)

    def test_innocents_pass(self):
        for _, innocents in CASES.values():
            for code in innocents:
                self.assertEqual(rules_found(code), set(), code)

    def test_json_belongs_to_the_job_files(self):
        self.assertEqual(rules_found("#include <nlohmann/json.hpp>", "src/job/read.cpp"), set())
        self.assertEqual(rules_found("#pragma once\n#include <nlohmann/json.hpp>", "src/job/include/lapwright/job/a.h"), {"json"})

    def test_a_header_is_guarded(self):
        self.assertEqual(rules_found("int a();", "src/job/a.h"), {"guard"})

    def test_raw_strings_are_text(self):
        self.assertEqual(rules_found('auto s = R"(throw "x" // rand())";\nauto t = R"j(\n try )j";'), set())


if __name__ == "__main__":
    unittest.main()
