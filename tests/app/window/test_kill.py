"""The window killed with -9 while a person edits, saves, or lets the roll be filled: nothing
confirmed is lost, and the engine does not outlive its window."""

import os
import signal
import subprocess
import sys

import pytest

from app.style.file import load_style
from app.style.recovery import left_behind
from tests.app.window.hands import ROOT, SAMPLES
from tests.processes import all_end

pytestmark = pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="kill -9 is a matter of POSIX systems")

DRIVER = """
import sys
from pathlib import Path
from PySide6.QtCore import QSettings, QTimer
from app.style.document import Document
from app.style import edits
from app.style.file import load_style
from app.window.application import Shell, make_application
sample, folder, saved, doing = sys.argv[1:]
QSettings.setDefaultFormat(QSettings.Format.IniFormat)
QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, folder)
app = make_application()
shell = Shell(app, Path(folder) / "recovery")
window = shell.show()
shell.session.open(Document(load_style(sample), Path(saved)))
window.show_desk([desk.name for desk in window.desks].index("lay" if doing == "filling" else "draft"))
n = 0
def step():
    global n
    n += 1
    style = shell.session.document.style
    shell.session.apply("note", edits.set_cloth(style, style.cloths[0].id, note=str(n)))
    print("step", n, flush=True)  # it is on the screen: from here on it counts as confirmed
    if doing == "saving":
        window.files.save()
timer = QTimer()
timer.timeout.connect(step)
timer.start(3)
if doing == "filling":
    desk = window.desk
    desk.order.seconds.set_value(600)
    desk.fill()
    print("engine", desk.run.process_id, flush=True)
app.exec()
"""


def step_in(style) -> int:
    """The number of the last step a style holds; the sample's own note is none."""
    note = style.cloths[0].note
    return int(note) if note.isdecimal() else 0


@pytest.mark.parametrize(
    ("doing", "after"), [("editing", 3), ("editing", 11), ("saving", 4), ("saving", 13), ("filling", 5)]
)
def test_kill_9(tmp_path, doing, after):
    saved = tmp_path / "work.style.json"
    saved.write_bytes(SAMPLES["court"].read_bytes())
    process = subprocess.Popen(
        [sys.executable, "-c", DRIVER, str(SAMPLES["court"]), str(tmp_path), str(saved), doing],
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        cwd=ROOT,
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
    )
    assert process.stdout is not None
    confirmed, engine = 0, 0
    while confirmed < after:
        word, number = process.stdout.readline().split()
        confirmed, engine = (int(number), engine) if word == "step" else (confirmed, int(number))
    os.kill(process.pid, signal.SIGKILL)
    rest = [line.split() for line in process.stdout.read().split("\n")[:-1]]
    process.wait()
    confirmed = max([confirmed, *(int(number) for word, number in rest if word == "step")])
    on_disk = [step_in(load_style(saved))]
    left = left_behind(tmp_path / "recovery")
    on_disk += [step_in(item.style) for item in left]
    assert max(on_disk) >= confirmed
    if doing != "saving":
        assert len(left) == 1 and left[0].path == saved
    if doing == "filling" and os.path.isdir("/proc"):
        assert engine and all_end([engine])
