"""What the checks by programs of other makes share. Exit 0: right; 1: wrong; 77: skipped, with the reason."""
import shutil
import subprocess
import sys


def need(tool):
    if shutil.which(tool) is None:
        print(f"SKIP: {tool} is not installed")
        sys.exit(77)


def run(*command):
    """What the command prints. A failure is wrong, and so is a complaint on standard error."""
    done = subprocess.run(command, capture_output=True, check=False)
    if done.returncode != 0:
        sys.exit(f"{' '.join(command)} failed:\n{done.stdout.decode(errors='replace')}{done.stderr.decode(errors='replace')}")
    if done.stderr:
        sys.exit(f"{command[0]} complained:\n{done.stderr.decode(errors='replace')}")
    return done.stdout.decode()


def expect(condition, words):
    if not condition:
        sys.exit(f"WRONG: {words}")
