"""Every C and C++ file is laid out as .clang-format says. Mend with: scripts/format"""

import pathlib
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
FOLDERS = ("src", "apps", "tests", "fuzz", "bench")

files = sorted(
    str(path.relative_to(ROOT))
    for folder in FOLDERS
    for path in (ROOT / folder).rglob("*")
    if path.suffix in (".h", ".cpp", ".c")
)
if not files:
    sys.exit("no files found")
mode = ["-i"] if sys.argv[1:] == ["--fix"] else ["--dry-run", "-Werror"]
# clang-format prints every line at fault; the name of the file is enough to mend it.
bad = [f for f in files if subprocess.run(["clang-format-19", *mode, f], cwd=ROOT, capture_output=True).returncode]
if bad:
    sys.exit("not laid out as .clang-format says (scripts/format mends them):\n  " + "\n  ".join(bad))
print(f"{len(files)} files")
