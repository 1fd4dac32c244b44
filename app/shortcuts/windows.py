"""A shortcut in the Start menu, and style files under 'Open with', by what every Windows has.

Windows knows endings from the last dot on: ``NAME.style.json`` is a ``.json`` to it. It would be wrong to
claim all of those, so stayply is put among the programs that open them; a person ticks 'Always' or not.
"""

from __future__ import annotations

import subprocess
from collections.abc import Callable, Sequence
from pathlib import Path

NAME = "stayply"
PROGRAM_ID = "stayply.style"
ICON = Path(__file__).with_name("stayply.ico")
CLASSES = "HKCU\\Software\\Classes"


def place(
    programs: Path, words: Sequence[str], folder: Path, run: Callable[[Sequence[str]], int]
) -> list[Path]:
    """Make the shortcut below ``programs`` (%APPDATA%); raises OSError where Windows' script host cannot."""
    link = programs / "Microsoft" / "Windows" / "Start Menu" / "Programs" / f"{NAME}.lnk"
    link.parent.mkdir(parents=True, exist_ok=True)
    if run(["powershell", "-NoProfile", "-NonInteractive", "-Command", script(link, words, folder)]) != 0:
        raise OSError(0, "the shortcut could not be made by PowerShell", str(link))
    for words_of_reg in registry(words):
        run(["reg", "add", *words_of_reg, "/f"])
    return [link]


def script(link: Path, words: Sequence[str], folder: Path) -> str:
    """Return the lines of PowerShell that make a .lnk through the shell's own object."""
    lines = [
        f"$s = (New-Object -ComObject WScript.Shell).CreateShortcut({_quoted(str(link))})",
        f"$s.TargetPath = {_quoted(words[0])}",
        f"$s.Arguments = {_quoted(subprocess.list2cmdline(words[1:]))}",
        f"$s.WorkingDirectory = {_quoted(str(folder))}",
        f"$s.IconLocation = {_quoted(str(ICON))}",
        "$s.Save()",
    ]
    return "; ".join(lines)


def registry(words: Sequence[str]) -> list[list[str]]:
    """Return the arguments of ``reg add`` that put us among the programs that open .json files."""
    command = subprocess.list2cmdline(words) + ' "%1"'
    return [
        [f"{CLASSES}\\{PROGRAM_ID}", "/ve", "/d", "stayply style"],
        [f"{CLASSES}\\{PROGRAM_ID}\\DefaultIcon", "/ve", "/d", str(ICON)],
        [f"{CLASSES}\\{PROGRAM_ID}\\shell\\open\\command", "/ve", "/d", command],
        [f"{CLASSES}\\.json\\OpenWithProgids", "/v", PROGRAM_ID, "/d", ""],
    ]


def _quoted(text: str) -> str:
    """A string of PowerShell that nothing is put into."""
    return "'" + text.replace("'", "''") + "'"
