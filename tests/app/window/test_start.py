"""What is loaded before the window is first painted: nothing that only a later desk or command needs."""

import os
import subprocess
import sys

import pytest

from tests.app.window.hands import ROOT, SAMPLES

STARTED = """
import json, sys
from pathlib import Path
from PySide6.QtCore import QSettings
from app.style.document import Document
from app.style.file import load_style
from app.window.application import Shell, make_application
folder, sample = sys.argv[1:]
QSettings.setDefaultFormat(QSettings.Format.IniFormat)
QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, folder)
app = make_application()
shell = Shell(app, Path(folder) / "recovery")
window = shell.show()
app.processEvents()
painted = sorted(sys.modules)
shell.session.open(Document(load_style(sample)))
app.processEvents()
print(json.dumps([painted, sorted(sys.modules), window.desk.name]))
"""


@pytest.fixture(scope="module")
def loaded(tmp_path_factory):
    """The modules loaded when the start page is painted, and when a style is open on the first desk."""
    import json

    done = subprocess.run(
        [sys.executable, "-c", STARTED, str(tmp_path_factory.mktemp("start")), str(SAMPLES["derby"])],
        env=os.environ | {"PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=True,
        cwd=ROOT,
    )
    painted, opened, desk = json.loads(done.stdout)
    assert desk == "draft"
    return set(painted), set(opened)


@pytest.mark.parametrize("name", ["scipy", "numba", "ezdxf", "openpyxl", "reportlab", "spyrrow"])
def test_the_start_page_waits_for_no_library_that_a_later_step_needs(loaded, name):
    assert name not in loaded[0]


def test_a_desk_is_loaded_when_it_is_first_shown(loaded):
    desks = {f"app.window.desks.{name}.desk" for name in ("draft", "cloth", "lay", "cost")}
    assert not desks & loaded[0]
    assert desks & loaded[1] == {"app.window.desks.draft.desk"}


@pytest.mark.parametrize("name", ["scipy.interpolate", "numba", "ezdxf", "spyrrow"])
def test_the_first_desk_waits_for_no_engine_and_no_reader_of_drawings(loaded, name):
    assert name not in loaded[1]


def test_a_home_that_cannot_be_written_does_not_keep_the_window_shut(tmp_path, monkeypatch):
    from app.window import settings

    blocked = tmp_path / "a file, no folder"
    blocked.write_text("", encoding="utf-8")
    monkeypatch.setattr(
        settings.QStandardPaths, "writableLocation", staticmethod(lambda place: str(blocked / "stayply"))
    )
    monkeypatch.setattr(settings.tempfile, "gettempdir", lambda: str(tmp_path / "temporary"))
    folder = settings.state_folder()
    assert folder.parent == tmp_path / "temporary"
    folder.mkdir(parents=True)
