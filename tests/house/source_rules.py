"""What no file under src/ may do: print, open, look at a clock, throw, keep state, use what differs between builds.

Rules are regular expressions over the code, with comments and the insides of strings taken out. source_rules_test.py
plants one breach of each and sees it found.
"""

import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]

BANNED_HEADERS = (
    "iostream|fstream|sstream|ostream|istream|iomanip|cstdio|stdio\\.h|filesystem|chrono|ctime|time\\.h|thread|mutex|"
    "future|atomic|random|unordered_map|unordered_set|locale|clocale|locale\\.h|regex|format|execution|Eigen/[^>]*"
)

# (name, what to find, what to say)
RULES = [
    ("header", rf"#\s*include\s*<(?:{BANNED_HEADERS})>", "opens, prints, keeps time, or differs between builds"),
    ("throw", r"\b(?:throw|try|catch)\b", "nothing under src/ throws: return a Result"),
    ("output", r"\b(?:std::)?(?:printf|fprintf|puts|putchar|fopen)\s*\(|std::(?:cout|cerr|clog)\b|fmt::print\b",
     "nothing under src/ prints or opens a file"),
    ("environment", r"\b(?:getenv|setlocale|system)\s*\(", "nothing under src/ looks at its surroundings"),
    ("random", r"(?<![\w.>])(?:std::)?s?rand\s*\(|std::\w+_distribution|std::(?:shuffle|sample|mt19937\w*)\b",
     "draw from lapwright/base/generator.h"),
    ("clock", r"(?<![\w.>:])(?:std::)?(?:time|clock|gettimeofday|clock_gettime)\s*\(", "nothing under src/ knows the time"),
    ("libm", r"std::(?:a?sinh?|a?cosh?|a?tanh?|atan2|pow|exp2?|expm1|log|log2|log10|log1p|cbrt|hypot)\s*\(",
     "differs between C libraries: use lapwright/base/trig.h"),
    ("text-to-number", r"std::(?:sto[a-z]+|from_chars|to_chars)\b|\b(?:strto[dfl]+|ato[fil])\s*\(",
     "numbers are read by fast_float and written by base/numbers.h or fmt"),
    ("state", r"\bthread_local\b|\bstatic\s+(?!const\b|constexpr\b|inline\b)[\w:<>,\s*&]+?\b\w+\s*(?:=|;|\{)",
     "no state outlives a call"),
    ("up", r'#\s*include\s*"[^"]*\.\./', "a module's files are reached by its include root only"),
    ("json", r"#\s*include\s*<nlohmann/", "only src/job/*.cpp knows JSON"),
]
RAW_STRING = re.compile(r'R"([^()\\ ]{0,16})\((?:.|\n)*?\)\1"')
COMMENT_OR_TEXT = re.compile(r"//[^\n]*|/\*(?:.|\n)*?\*/|\"(?:\\.|[^\"\\\n])*\"|'(?:\\.|[^'\\\n])'")


def bare(code):
    """The code without comments and the insides of strings, lines kept. Includes keep their name."""
    def blank(match):
        text = match.group(0)
        start = code.rfind("\n", 0, match.start()) + 1
        if text.startswith('"') and re.match(r"\s*#\s*include\s*$", code[start:match.start()]):
            return text
        return '""' if text[0] in "\"'" else "\n" * text.count("\n")
    code = RAW_STRING.sub(lambda m: '""' + "\n" * m.group(0).count("\n"), code)
    return COMMENT_OR_TEXT.sub(blank, code)


def findings(root):
    """A list of (file, line, rule, reason); and how many files were read."""
    found = []
    files = sorted(p for p in (root / "src").rglob("*") if p.suffix in (".h", ".cpp"))
    for path in files:
        name = path.relative_to(root).as_posix()
        code = bare(path.read_text(encoding="utf-8"))
        for rule, pattern, reason in RULES:
            if rule == "json" and re.fullmatch(r"src/job/[^/]+\.cpp", name):
                continue
            for match in re.finditer(pattern, code):
                found.append((name, code.count("\n", 0, match.start()) + 1, rule, reason))
        if path.suffix == ".h" and "#pragma once" not in code:
            found.append((name, 1, "guard", "a header begins with #pragma once"))
    return found, len(files)


if __name__ == "__main__":
    found, read = findings(ROOT)
    for name, line, rule, reason in found:
        print(f"{name}:{line}: {rule}: {reason}")
    if not read:
        sys.exit("no files under src/")
    print(f"{read} files, {len(found)} breaches")
    sys.exit(1 if found else 0)
