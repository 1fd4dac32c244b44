"""Unsaved work outlives the program, whichever way it ends."""

import json
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from app.style import edits
from app.style.file import load_style
from app.style.recovery import RecoveryCopy, left_behind

ROOT = Path(__file__).parents[3]
DERBY = ROOT / "sample_styles/derby/derby.style.json"
CLOTH = load_style(DERBY).cloths[0].id


def test_a_copy_of_a_running_program_is_not_offered(tmp_path):
    copy = RecoveryCopy(tmp_path)
    copy.write(load_style(DERBY), DERBY)
    assert left_behind(tmp_path) == []
    copy.close()
    assert list(tmp_path.iterdir()) == []


def test_a_damaged_copy_is_passed_over_and_kept(tmp_path):
    (tmp_path / "1-a.json").write_text('{"style": {"na', encoding="utf-8")
    assert left_behind(tmp_path) == []
    assert (tmp_path / "1-a.json").exists()


EDITOR = """
import os, signal, sys
from pathlib import Path
from app.style.document import Document
from app.style.recovery import RecoveryCopy
from app.style import edits
from app.style.file import load_style, save_style
document = Document(load_style(sys.argv[1]), Path(sys.argv[3]))
copy = RecoveryCopy(Path(sys.argv[2]))
n, after, files = 0, int(sys.argv[6]), int(sys.argv[7])
def touched(event, args):
    global files
    if n > after and event in ("open", "os.rename", "os.remove"):  # in the middle of a step or save
        files -= 1
        if files < 0:
            os.kill(os.getpid(), signal.SIGKILL)
sys.addaudithook(touched)
while True:
    n += 1
    document.apply("turn", edits.set_axis(document.style, "Vamp", n % 90))
    document.apply("note", edits.set_cloth(document.style, sys.argv[5], note=str(n)))
    copy.write(document.style, document.path)
    print(n, flush=True)               # from here on the step counts as confirmed
    if sys.argv[4] == "saving":
        save_style(document.style, document.path)
"""


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="kill -9 is a matter of POSIX systems")
@pytest.mark.parametrize("doing", ["editing", "saving"])
@pytest.mark.parametrize(("after", "files"), [(1, 0), (2, 1), (5, 2), (9, 3), (14, 4)])
def test_kill_9_loses_nothing_confirmed(tmp_path, doing, after, files):
    saved = tmp_path / "work.style.json"
    saved.write_bytes(DERBY.read_bytes())
    folder = tmp_path / "recovery"
    process = subprocess.Popen(
        [
            sys.executable,
            "-c",
            EDITOR,
            str(DERBY),
            str(folder),
            str(saved),
            doing,
            CLOTH,
            str(after),
            str(files),
        ],
        stdout=subprocess.PIPE,
        text=True,
        cwd=ROOT,
    )
    said = process.communicate(timeout=600)[0].split()
    assert process.returncode == -signal.SIGKILL
    confirmed = int(said[-1])
    assert confirmed >= after
    (left,) = left_behind(folder)
    assert int(left.style.cloths[0].note) >= confirmed
    assert left.path == saved
    load_style(saved)  # the file is the old one or the new one, whole
    left.discard()
    assert left_behind(folder) == []


def test_the_copy_holds_what_the_file_format_cannot_lose(tmp_path):
    style = edits.set_cloth(load_style(DERBY), CLOTH, note="ñ → “quoted”")
    copy = RecoveryCopy(tmp_path)
    copy.write(style, None)
    data = json.loads(copy.file.read_text(encoding="utf-8"))
    assert data["style"]["cloths"][0]["note"] == "ñ → “quoted”" and data["path"] == ""
    copy.close()
