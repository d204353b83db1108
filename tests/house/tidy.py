"""tidy.py BUILD_DIR: clang-tidy over src/ and apps/, with .clang-tidy. A file that passed is not looked at again until
its text, a header of ours that it includes, its flags, the rules or the tool change (BUILD_DIR/tidy keeps the marks).
"""

import concurrent.futures
import hashlib
import json
import os
import pathlib
import shlex
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
TOOL = "clang-tidy-19"
# The analyzer follows a function's paths up to so many steps: a quarter of its own limit looks at nearly all of ours
# whole, in half the time.
STEPS = [f"--extra-arg={word}" for word in ("-Xclang", "-analyzer-config", "-Xclang", "max-nodes=60000")]


def digest(*parts):
    whole = hashlib.sha256()
    for part in parts:
        whole.update(part if isinstance(part, bytes) else str(part).encode())
        whole.update(b"\0")
    return whole.hexdigest()


def includes(entry):
    """Every file of the repository (or of its build) that the compiler reads for this one."""
    words = shlex.split(entry["command"])
    for option in ("-o", "-MF", "-MT"):
        if option in words:
            at = words.index(option)
            del words[at : at + 2]
    words = [word for word in words if word not in ("-c", "-MD")]
    run = subprocess.run([*words, "-MM"], cwd=entry["directory"], capture_output=True, text=True)
    files = sorted(set(run.stdout.replace("\\\n", " ").split()[1:]))
    # What does not even name itself cannot be trusted: look again.
    return files if run.returncode == 0 and entry["file"] in files else None


def mark(entry, ground):
    files = includes(entry)
    if files is None:
        return None
    return digest(*ground, entry["command"], *(pathlib.Path(entry["directory"], f).read_bytes() for f in files))


def main():
    build = pathlib.Path(sys.argv[1])
    marks = build / "tidy"
    marks.mkdir(exist_ok=True)
    version = subprocess.run([TOOL, "--version"], check=True, capture_output=True).stdout
    ground = [version, (ROOT / ".clang-tidy").read_bytes(), *STEPS]
    entries = {}
    for entry in json.loads((build / "compile_commands.json").read_text()):
        place = pathlib.Path(entry["file"])
        inside = place.is_relative_to(ROOT) and place.relative_to(ROOT).parts[0] in ("src", "apps")
        if inside and place.suffix == ".cpp" and place not in entries:
            entries[place] = entry
    if not entries:
        sys.exit("no files found")

    def look(entry):
        key = mark(entry, ground)
        done = marks / key if key else None
        if done and done.exists():
            return entry["file"], 0, "", True
        run = subprocess.run([TOOL, "--quiet", "-p", str(build), "--extra-arg=-Wno-unknown-warning-option", *STEPS,
                              entry["file"]], capture_output=True, text=True)
        if run.returncode == 0 and done:
            done.touch()
        # Standard error counts suppressed warnings; it matters only when there is nothing else to say.
        return entry["file"], run.returncode, run.stdout or run.stderr, False

    failed, kept = 0, 0
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        for name, status, said, known in pool.map(look, entries.values()):
            kept += known
            if status:
                failed += 1
                print(said)
    print(f"{len(entries)} files, {kept} unchanged since they passed, {failed} at fault")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
