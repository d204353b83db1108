"""Who may include whom. layering.py BUILD_DIR: the graph in src/CMakeLists.txt, the include lines, and the flags of the
compiler all keep to the directions below; and for each module one include that must not compile does not, while its
twin does.
"""

import json
import pathlib
import re
import shlex
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]

# The directions that docs/shape.md draws. Stages meet only in `job`; the checker shares nothing with what it checks.
_GROUND = {"base", "geom", "job", "practice"}
ALLOWED = {
    "base": set(),
    "geom": {"base"},
    "job": {"geom", "base"},
    "practice": {"job", "geom", "base"},
    "setout": _GROUND,
    "pieces": _GROUND,
    "check": _GROUND,
    "cutting": _GROUND,
    "cutcheck": _GROUND,
    "estimate": _GROUND,
    "draw": {"geom", "base"},
    "sheets": _GROUND | {"draw"},
}
ALLOWED["engine"] = set(ALLOWED)
HOSTS_MAY = {"engine"}


def graph(root):
    """{module: what it may include, by what is written in src/CMakeLists.txt, followed to the end}"""
    text = re.sub(r"#[^\n]*", "", (root / "src/CMakeLists.txt").read_text(encoding="utf-8"))
    direct = {}
    for call in re.findall(r"lapwright_module\(([^)]*)\)", text):
        name, *rest = call.split()
        direct[name] = {word for word in rest if word not in ("DEPS", "PRIVATE_DEPS")}

    def follow(name, path=()):
        if name in path:
            raise SystemExit("a ring: " + " -> ".join((*path, name)))
        reached = set()
        for other in direct.get(name, ()):
            reached |= {other} | follow(other, (*path, name))
        return reached

    return {name: follow(name) for name in direct}


def graph_breaches(root):
    found = []
    for module, reached in graph(root).items():
        if module not in ALLOWED:
            found.append(f"src/CMakeLists.txt: no direction is drawn for the module '{module}'")
            continue
        for other in sorted(reached - ALLOWED[module]):
            found.append(f"src/CMakeLists.txt: {module} may not reach {other}")
    return found


def include_breaches(root):
    found = []
    for top in ("src", "apps"):
        for path in sorted((root / top).rglob("*")):
            if path.suffix not in (".h", ".cpp", ".c"):
                continue
            name = path.relative_to(root)
            module = name.parts[1]
            may = ALLOWED.get(module, set()) | {module} if top == "src" else HOSTS_MAY
            for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
                match = re.match(r'\s*#\s*include\s*[<"]lapwright/(\w+)/', line)
                if match and match.group(1) not in may:
                    found.append(f"{name}:{number}: {module} may not include {match.group(1)}")
    return found


def commands(build):
    """{module: the words of one compiler call, without its source and output}"""
    calls = {}
    for entry in json.loads((build / "compile_commands.json").read_text()):
        match = re.search(r"/src/(\w+)/[^/]+\.cpp$", entry["file"])
        if not match or match.group(1) in calls:
            continue
        words = shlex.split(entry["command"])
        kept, skip = [], False
        for word in words:
            if skip:
                skip = False
            elif word in ("-o", "-MF", "-MT", "-MQ"):
                skip = True
            elif word not in ("-c", "-MD", "-MMD", entry["file"]):
                kept.append(word)
        calls[match.group(1)] = kept
    return calls


def compiles(call, header):
    """Whether a file with this include compiles, and what the compiler says."""
    run = subprocess.run([*call, "-fsyntax-only", "-x", "c++", "-"], input=f"#include <{header}>\n", text=True,
                         capture_output=True, cwd=ROOT)
    return run.returncode == 0, run.stderr


def compile_breaches(root, build):
    found, tried = [], 0
    reach = graph(root)
    headers = {m: sorted((root / f"src/{m}/include/lapwright/{m}").glob("*.h")) for m in reach}
    for module, call in sorted(commands(build).items()):
        seen = set(re.findall(r"/src/(\w+)/include(?=\s|$)", " ".join(call)))
        if seen != reach[module] | {module}:
            found.append(f"{module} is compiled with the include roots {sorted(seen)}")
        outside = [m for m in reach if m not in reach[module] | {module} and headers[m]]
        inside = [m for m in sorted(reach[module] | {module}) if headers[m]]
        for other in inside[:1]:
            good, said = compiles(call, f"lapwright/{other}/{headers[other][0].name}")
            tried += 1
            if not good:
                found.append(f"{module} must be able to include {other}: {said}")
        for other in outside[:2]:
            header = f"lapwright/{other}/{headers[other][0].name}"
            good, said = compiles(call, header)
            tried += 1
            # For the right reason: the header is out of reach, not broken.
            if good or f"{header}: No such file" not in said:
                found.append(f"{module} must not be able to include {header}" + (f", but: {said}" if said else ""))
    return found, tried


def main():
    build = pathlib.Path(sys.argv[1])
    found, tried = compile_breaches(ROOT, build)
    found += graph_breaches(ROOT) + include_breaches(ROOT)
    print("\n".join(found))
    print(f"{len(graph(ROOT))} modules, {tried} includes tried, {len(found)} breaches")
    return 1 if found or not tried else 0


if __name__ == "__main__":
    sys.exit(main())
