"""The program killed in the middle of what it writes: at a file it puts in place, not at a time."""

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]

DIES = """
import os, signal, sys
left, folder = int(sys.argv[1]), sys.argv[2]
def touched(event, args):
    global left
    if event == "os.rename" and str(args[1]).startswith(folder):
        left -= 1
        if left < 0:
            os.kill(os.getpid(), signal.SIGKILL)
sys.addaudithook(touched)
from app.__main__ import main
sys.exit(main(sys.argv[3:]))
"""


def run_and_kill(words: list[str], folder: Path, after: int) -> int:
    """Run a command that is killed when it has put ``after`` files or folders below ``folder`` in
    place and is about to put the next; returns its exit status."""
    return subprocess.run(
        [sys.executable, "-c", DIES, str(after), str(folder), *words],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        env=os.environ | {"PYTHONPATH": str(ROOT)},
        check=False,
    ).returncode
