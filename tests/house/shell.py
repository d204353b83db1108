"""Every shell script is clean by shellcheck and can be run; every .mjs file parses."""

import os
import pathlib
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
FOLDERS = (".", ".ci", "scripts", "tests", "apps", "web")

shell, node, bad = [], [], []
for folder in FOLDERS:
    pattern = "*" if folder == "." else "**/*"
    for path in (ROOT / folder).glob(pattern):
        if not path.is_file() or "node_modules" in path.parts:
            continue
        if path.suffix == ".mjs":
            node.append(path)
        elif path.suffix in ("", ".sh") and path.read_bytes()[:2] == b"#!":
            first = path.read_text(encoding="utf-8").splitlines()[0]
            if "sh" in first.split("/")[-1]:
                shell.append(path)
for path in shell:
    if not os.access(path, os.X_OK):
        bad.append(f"{path} cannot be run: chmod +x")
for tool, files in ((["shellcheck"], shell), (["node", "--check"], node)):
    for path in files:
        run = subprocess.run([*tool, str(path)], capture_output=True, text=True)
        if run.returncode:
            bad.append(run.stdout + run.stderr)
print("\n".join(bad))
print(f"{len(shell)} shell scripts, {len(node)} modules, {len(bad)} at fault")
sys.exit(1 if bad or not shell else 0)
