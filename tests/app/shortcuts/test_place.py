"""An entry in the menu on every system, the system faked; nothing of the real desktop is touched."""

from __future__ import annotations

import configparser
import plistlib
import shlex
import struct
import subprocess
import xml.etree.ElementTree as ET
from pathlib import Path, PureWindowsPath

import pytest

from app.commands import shortcut
from app.errors import UsageError
from app.shortcuts import linux, mac, place, windows
from nesting import system

AWKWARD = ["/home/anna maria/обувь 100%/start.py", "window"]


@pytest.fixture
def ran():
    return []


@pytest.fixture
def run(ran):
    def remember(words) -> int:
        ran.append(list(words))
        return 0

    return remember


def _exec_words(line: str) -> list[str]:
    """Read an ``Exec`` as the specification says: a string of the file first, then quoted arguments."""
    text = line.replace("\\\\", "\\").replace("%%", "%")
    return shlex.split(text)


def test_a_desktop_entry_starts_this_copy_whatever_its_folder_is_called(tmp_path, ran, run) -> None:
    entry, icon, kind = linux.place(tmp_path / "share", AWKWARD, run)
    parsed = configparser.RawConfigParser(delimiters=("=",), comment_prefixes=("#",))
    parsed.optionxform = str
    parsed.read_string(entry.read_text(encoding="utf-8"))
    head = parsed["Desktop Entry"]
    assert _exec_words(head["Exec"]) == [*AWKWARD, "%F"]
    assert head["MimeType"] == f"{linux.MIME};" and icon.stem == head["Icon"]
    glob = ET.fromstring(kind.read_text(encoding="utf-8")).find(".//{*}glob")
    assert glob is not None and glob.get("pattern") == "*.style.json"
    assert ["xdg-mime", "default", "stayply.desktop", linux.MIME] in ran


def test_signs_that_a_shell_would_read_are_kept_from_it() -> None:
    line = linux.desktop_entry(['/a"b$c`d\\e', "window"]).split("Exec=")[1].splitlines()[0]
    assert line == r'"/a\\"b\\$c\\`d\\\\e" "window" %F'


def test_windows_is_asked_through_its_own_script_host(tmp_path, ran, run) -> None:
    words = ["C:\\Program Files\\o'hara\\pythonw.exe", "-m", "app", "window"]
    (link,) = windows.place(tmp_path, words, Path("C:\\stayply"), run)
    assert PureWindowsPath(link).suffix == ".lnk"
    told = ran[0][-1]
    assert "'C:\\Program Files\\o''hara\\pythonw.exe'" in told and "$s.Save()" in told
    command = next(words for words in ran if words[0] == "reg" and "command" in words[2])
    assert command[-2] == subprocess.list2cmdline(words) + ' "%1"'
    assert not any(words[:2] == ["reg", "add"] and words[2].endswith("\\.json") for words in ran), (
        "other programs keep their .json files"
    )


def test_a_mac_bundle_names_what_it_opens_and_starts_this_copy(tmp_path, ran, run) -> None:
    bundle, program = mac.place(tmp_path, AWKWARD, run)
    told = plistlib.loads((bundle / "Contents" / "Info.plist").read_bytes())
    assert told["CFBundleExecutable"] == program.name
    assert mac.KIND in told["CFBundleDocumentTypes"][0]["LSItemContentTypes"]
    line = program.read_text(encoding="utf-8").splitlines()[1]
    assert shlex.split(line) == ["exec", *AWKWARD, "$@"]


@pytest.mark.parametrize(
    ("is_windows", "is_mac", "environment", "below"),
    [
        (False, False, {"HOME": "h", "XDG_DATA_HOME": "d"}, "d/applications"),
        (False, False, {"HOME": "h"}, "h/.local/share/applications"),
        (False, True, {"HOME": "h"}, "h/Applications"),
        (True, False, {"USERPROFILE": "h", "APPDATA": "r"}, "r/Microsoft"),
    ],
)
def test_each_system_has_its_place(
    tmp_path, monkeypatch, run, is_windows, is_mac, environment, below
) -> None:
    monkeypatch.setattr(system, "WINDOWS", is_windows)
    monkeypatch.setattr(system, "MAC", is_mac)
    monkeypatch.setattr(place, "window_words", lambda: ["python", "start.py", "window"])
    monkeypatch.chdir(tmp_path)
    first = place.place(environment, run)[0]
    assert first.as_posix().startswith(below)


def test_windows_starts_without_a_console(monkeypatch) -> None:
    monkeypatch.setattr(system, "WINDOWS", True)
    assert Path(place.window_words()[0]).name == "pythonw.exe"


def test_a_home_that_cannot_be_written_is_told_in_one_line(monkeypatch) -> None:
    def refused(environment, run):
        raise PermissionError(13, "Permission denied", "/home/x/.local")

    monkeypatch.setattr(shortcut, "place", refused)
    with pytest.raises(UsageError, match="Permission denied"):
        shortcut.run(None)


def test_the_icons_hold_pictures_of_all_sizes() -> None:
    data = windows.ICON.read_bytes()
    count = struct.unpack("<HHH", data[:6])[2]
    for k in range(count):
        size, at = struct.unpack("<II", data[6 + 16 * k + 8 : 6 + 16 * k + 16])
        assert data[at : at + 8] == b"\x89PNG\r\n\x1a\n" and at + size <= len(data)
    icns = mac.ICON.read_bytes()
    assert icns[:4] == b"icns" and struct.unpack(">I", icns[4:8])[0] == len(icns)
