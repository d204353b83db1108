"""same_bytes.py DEV RELEASE : every file that a job gives is the same to the byte in both builds, and on a second run.

That the WebAssembly engine gives them too is tests/wasm/engine_parity.mjs.
"""
import pathlib
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
JOBS = sorted([*ROOT.glob("data/demo/*.json"), *ROOT.glob("tests/jobs/good/*.json"), *ROOT.glob("tests/jobs/cases/*.json")])


def files_of(program, job, folder):
    done = subprocess.run([program, "plan", str(job), "--out", str(folder)], capture_output=True)
    if done.returncode not in (0, 1):
        return {"(status)": str(done.returncode).encode(), "(faults)": done.stderr}
    files = {path.name: path.read_bytes() for path in sorted(folder.iterdir())}
    # The last line of the table names the folder, which differs.
    files["(table)"] = b"\n".join(done.stdout.splitlines()[:-1])
    return files


def main():
    dev, release = sys.argv[1:]
    if not JOBS:
        sys.exit("no jobs found: nothing was compared")
    compared = 0
    differences = []
    for job in JOBS:
        with tempfile.TemporaryDirectory() as base:
            runs = []
            for number, program in enumerate((dev, release, release)):
                folder = pathlib.Path(base) / str(number)
                folder.mkdir()
                runs.append(files_of(program, job, folder))
            for what, other in (("dev", runs[0]), ("a second run", runs[2])):
                for name in sorted(set(runs[1]) | set(other)):
                    compared += 1
                    if runs[1].get(name) != other.get(name):
                        differences.append(f"{job.relative_to(ROOT)}: {name}: release differs from {what}")
    print(f"{compared} files compared over {len(JOBS)} jobs")
    if differences:
        sys.exit("\n".join(differences))


main()
