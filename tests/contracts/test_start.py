"""start.py: one clear line for everything that can be missing, and nothing done twice."""

from __future__ import annotations

import importlib.util
import os
import shutil
import site
import subprocess
import sys
from pathlib import Path
from types import ModuleType, SimpleNamespace

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture
def start(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    """start.py, with an environment in a folder of its own and two lists of libraries."""
    spec = importlib.util.spec_from_file_location("start_under_test", ROOT / "start.py")
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    for lock in ("requirements.lock", "requirements-dev.lock"):
        (tmp_path / lock).write_text(f"# {lock}\n")
    monkeypatch.setattr(module, "ROOT", tmp_path)
    monkeypatch.setattr(module, "VENV", tmp_path / ".venv")
    monkeypatch.setattr(module, "BIN", tmp_path / ".venv" / "bin")
    monkeypatch.setattr(module, "PYTHON", tmp_path / ".venv" / "bin" / "python")
    monkeypatch.setattr(module, "LOG", tmp_path / ".venv" / "setup.log")
    return module


def _made(start: ModuleType) -> None:
    start.PYTHON.parent.mkdir(parents=True, exist_ok=True)
    start.PYTHON.write_text("")


def _said(capsys: pytest.CaptureFixture[str]) -> str:
    out, err = capsys.readouterr()
    assert out == "", "standard output is for results"
    return err.strip().splitlines()[-1]


def test_what_is_set_up_is_not_set_up_again(start: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    _made(start)
    installed: list[str] = []
    monkeypatch.setattr(start, "environment_works", start.PYTHON.exists)
    monkeypatch.setattr(start, "make_environment", lambda: installed.append("environment"))
    monkeypatch.setattr(start, "install", lambda lock: installed.append(lock.name))
    monkeypatch.setattr(start, "link_project", lambda: None)
    monkeypatch.setattr(start, "compile_engine", lambda: None)
    start.set_up("requirements.lock")
    start.set_up("requirements.lock")
    assert installed == ["requirements.lock"]
    start.set_up("requirements-dev.lock")
    start.set_up("requirements.lock")
    assert installed == ["requirements.lock", "requirements-dev.lock"], "the longer list holds the shorter"
    (start.ROOT / "requirements.lock").write_text("# another\n")
    start.set_up("requirements.lock")
    assert installed[-1] == "requirements.lock", "a changed list is installed"
    assert "environment" not in installed


def test_another_python_makes_the_environment_anew(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    _made(start)
    (start.VENV / "python.stamp").write_text("3.9.0 some other")
    made: list[str] = []

    def make() -> None:
        made.append("environment")

    monkeypatch.setattr(start, "make_environment", make)
    monkeypatch.setattr(start, "install", lambda lock: None)
    monkeypatch.setattr(start, "link_project", lambda: None)
    monkeypatch.setattr(start, "compile_engine", lambda: None)
    start.set_up("requirements.lock")
    assert made == ["environment"]


class Killed(BaseException):
    """Stands for a process that ends at once: nothing of ours runs after it."""


def test_a_set_up_killed_half_way_is_made_anew_by_the_next_start(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    did: list[str] = []

    def make() -> None:
        did.append("environment")
        shutil.rmtree(start.VENV, ignore_errors=True)
        _made(start)

    def killed(lock: Path) -> None:
        did.append("killed in pip")
        raise Killed

    monkeypatch.setattr(start, "environment_works", start.PYTHON.exists)
    monkeypatch.setattr(start, "make_environment", make)
    monkeypatch.setattr(start, "install", killed)
    monkeypatch.setattr(start, "link_project", lambda: None)
    monkeypatch.setattr(start, "compile_engine", lambda: None)
    with pytest.raises(Killed):
        start.set_up("requirements.lock")
    monkeypatch.setattr(start, "install", lambda lock: did.append("installed"))
    start.set_up("requirements.lock")
    start.set_up("requirements.lock")
    assert did == ["environment", "killed in pip", "environment", "installed"]


def test_an_update_without_network_leaves_the_environment(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    _made(start)
    made: list[str] = []

    def no_network(lock: Path) -> None:
        raise SystemExit(2)

    monkeypatch.setattr(start, "environment_works", lambda: True)
    monkeypatch.setattr(start, "make_environment", lambda: made.append("environment"))
    monkeypatch.setattr(start, "install", no_network)
    for _ in range(2):
        with pytest.raises(SystemExit):
            start.set_up("requirements.lock")
    assert made == []


def test_an_environment_without_its_pip_is_no_environment(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert not start.environment_works()
    _made(start)
    monkeypatch.setattr(start.subprocess, "run", lambda *_, **__: SimpleNamespace(returncode=1))
    assert not start.environment_works()
    monkeypatch.setattr(start.subprocess, "run", lambda *_, **__: SimpleNamespace(returncode=0))
    assert start.environment_works()


@pytest.mark.parametrize("windows", [False, True])
def test_a_folder_with_blanks_and_any_letters_is_found_by_every_python(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, windows: bool
) -> None:
    """Windows' Python 3.11 and 3.12 read .pth files by the code page, in which some letters do not exist."""
    root = start.ROOT / "prova è 試 x"
    packages = start.VENV / ("Lib/site-packages" if windows else "lib/python3.11/site-packages")
    packages.mkdir(parents=True)
    start.BIN.mkdir(exist_ok=True)
    monkeypatch.setattr(start, "WINDOWS", windows)
    monkeypatch.setattr(start, "ROOT", root)
    start.link_project()
    link = packages / "stayply.pth"
    assert link.read_bytes().decode("cp1252") == link.read_text(encoding="ascii")
    monkeypatch.setattr(sys, "path", list(sys.path))
    for _ in range(2):
        site.addpackage(str(packages), link.name, set())
    assert sys.path.count(str(root)) == 1
    if windows:  # the batch file names its own folder, whatever that is called
        assert b"%~dp0python.exe" in (start.BIN / "stayply.cmd").read_bytes()


@pytest.mark.parametrize(("screen", "demo_done", "ran"), [(True, True, ["window"]), (False, True, ["demo"])])
def test_where_there_is_a_screen_the_window_opens(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, screen: bool, demo_done: bool, ran: list[str]
) -> None:
    commands: list[str] = []

    def called(command: list[str]) -> int:
        commands.append(command[3])
        return 0

    monkeypatch.setattr(start, "set_up", lambda lock: None)
    monkeypatch.setattr(start, "has_window", lambda: True)
    monkeypatch.setattr(start, "has_screen", lambda: screen)
    monkeypatch.setattr(start, "demo_style", lambda: ["out/court.style.json"] if demo_done else [])
    monkeypatch.setattr(start, "provide_libraries", lambda libraries, purpose: True)
    monkeypatch.setattr(start.subprocess, "call", called)
    monkeypatch.setattr(start, "run", lambda arguments: commands.append(arguments[2]) or 0)
    start.main([])
    assert commands == ran


def test_a_python_that_cannot_make_environments(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(start.importlib.util, "find_spec", lambda name: None)
    monkeypatch.setattr(start, "apt_install", lambda packages, purpose: False)
    with pytest.raises(SystemExit) as ended:
        start.make_environment()
    assert ended.value.code == 2
    assert "sudo apt-get install" in _said(capsys) and "venv" not in str(list(start.ROOT.glob(".venv")))


def test_a_half_made_environment_is_removed(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def half(command: list[str], **_: object) -> SimpleNamespace:
        (start.VENV / "bin").mkdir(parents=True)
        return SimpleNamespace(returncode=1, stdout="", stderr="ensurepip failed\nbadly")

    monkeypatch.setattr(start.subprocess, "run", half)
    with pytest.raises(SystemExit):
        start.make_environment()
    assert "ensurepip failed badly" in _said(capsys)
    assert not start.VENV.exists()


@pytest.mark.parametrize(
    ("output", "said"),
    [
        ("WARNING: Retrying (Retry(total=1)) after NewConnectionError", "no network?"),
        ("ERROR: THESE PACKAGES DO NOT MATCH THE HASHES FROM THE REQUIREMENTS FILE", "is not the one"),
        ("ERROR: No matching distribution found for numpy", "not made for this system"),
        ("ERROR: something else", "pip's own words are in"),
    ],
)
def test_a_set_up_that_fails_is_said_in_one_line(
    start: ModuleType,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    output: str,
    said: str,
) -> None:
    _made(start)
    failed = SimpleNamespace(returncode=1, stdout="", stderr=output)
    monkeypatch.setattr(start.subprocess, "run", lambda *_, **__: failed)
    with pytest.raises(SystemExit) as ended:
        start.install(start.ROOT / "requirements.lock")
    assert ended.value.code == 2
    assert said in _said(capsys)
    assert start.LOG.read_text() == output


def test_a_full_disk_is_told_so(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    _made(start)
    failed = SimpleNamespace(returncode=1, stdout="", stderr="OSError: [Errno 28] No space left on device")
    monkeypatch.setattr(start.subprocess, "run", lambda *_, **__: failed)
    with pytest.raises(SystemExit):
        start.install(start.ROOT / "requirements.lock")
    assert "the disk is full" in _said(capsys)


@pytest.mark.parametrize(
    ("fault", "status", "said"),
    [
        (KeyboardInterrupt(), 1, "start.py: stopped; run it again to go on"),
        (
            PermissionError(13, "Permission denied", "/some/stamp"),
            2,
            "start.py: /some/stamp: Permission denied",
        ),
    ],
)
def test_what_stops_it_half_way_is_one_line(
    start: ModuleType,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    fault: BaseException,
    status: int,
    said: str,
) -> None:
    def stopped(words: list[str]) -> int:
        raise fault

    monkeypatch.setattr(start, "main", stopped)
    assert start.start([]) == status
    assert _said(capsys).startswith(said)


def test_what_lies_in_the_callers_folder_is_not_taken_for_the_program(tmp_path: Path) -> None:
    """A folder ``app`` or a file ``numpy.py`` there must not be imported in place of ours."""
    (tmp_path / "app").mkdir()
    (tmp_path / "app" / "__init__.py").write_text("raise SystemExit('not the program')")
    (tmp_path / "numpy.py").write_text("raise SystemExit('not numpy')")
    code = (
        "import importlib.util as u, pathlib, sys\n"
        f"s = u.spec_from_file_location('start', {str(ROOT / 'start.py')!r})\n"
        "m = u.module_from_spec(s); s.loader.exec_module(m)\n"
        "m.set_up = lambda lock: None; m.PYTHON = pathlib.Path(sys.executable)\n"
        "m.main(['pieces', 'none.dxf'])\n"
    )
    path = {**os.environ, "PYTHONPATH": str(ROOT)}
    result = subprocess.run(
        [sys.executable, "-P", "-c", code],
        capture_output=True,
        text=True,
        check=False,
        cwd=tmp_path,
        env=path,
    )
    assert result.stderr == "stayply: none.dxf: there is no such file; check the name\n"


def test_missing_system_libraries_are_named_with_the_line_to_run(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(start.sys, "platform", "linux")
    monkeypatch.setattr(start, "loads", lambda library: library == "libGL.so.1")
    monkeypatch.setattr(start.shutil, "which", lambda name: "/usr/bin/apt-get")
    monkeypatch.setattr(start.os, "geteuid", lambda: 1000, raising=False)
    assert not start.provide_libraries({"libgl1": "libGL.so.1", "libegl1": "libEGL.so.1"}, "the window")
    assert _said(capsys).endswith("run: sudo apt-get install -y --no-install-recommends libegl1")


def test_as_root_they_are_installed_and_named_first(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    ran: list[str] = []

    def run(command: list[str], **_: object) -> SimpleNamespace:
        ran.append(" ".join(command))
        return SimpleNamespace(returncode=0)

    monkeypatch.setattr(start.sys, "platform", "linux")
    monkeypatch.setattr(start, "WINDOWS", False)
    monkeypatch.setattr(start, "loads", lambda library: False)
    monkeypatch.setattr(start.shutil, "which", lambda name: "/usr/bin/apt-get")
    monkeypatch.setattr(start.os, "geteuid", lambda: 0, raising=False)
    monkeypatch.setattr(start.subprocess, "run", run)
    assert start.provide_libraries({"libgl1": "libGL.so.1"}, "the window")
    assert "libgl1" in _said(capsys)
    assert ran == ["apt-get update", "apt-get install -y --no-install-recommends libgl1"]


def test_too_old_a_python_is_told_so() -> None:
    """Run under this Python with an old version put in its place."""
    code = (
        "import sys; sys.version_info = (3, 8, 0)\n"
        f"exec(compile(open({str(ROOT / 'start.py')!r}).read(), 'start.py', 'exec'))\n"
    )
    result = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert result.returncode == 2
    assert result.stderr.startswith("stayply needs Python 3.11 or newer, this is 3.8")
    assert len(result.stderr.strip().splitlines()) == 1
