"""A desktop entry with our icon and a MIME type of style files (specifications of freedesktop.org)."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from app.atomic import write_whole

NAME = "stayply"
MIME = "application/x-stayply-style+json"
ICON = Path(__file__).with_name("stayply.svg")
QUOTED = '"`$\\'
"""Signs that a quoted argument of ``Exec`` must have a backslash before (Desktop Entry Specification)."""


def place(data: Path, words: Sequence[str], run: Callable[[Sequence[str]], int]) -> list[Path]:
    """Write entry, icon and MIME type below ``data`` ($XDG_DATA_HOME) and tell the desktop of them."""
    entry = data / "applications" / f"{NAME}.desktop"
    icon = data / "icons" / "hicolor" / "scalable" / "apps" / f"{NAME}.svg"
    kind = data / "mime" / "packages" / f"{NAME}.xml"
    write_whole(icon, ICON.read_bytes())
    write_whole(kind, mime_type())
    write_whole(entry, desktop_entry(words))
    # desktops that lack these programs look into the folders themselves
    run(["update-mime-database", str(data / "mime")])
    run(["update-desktop-database", str(entry.parent)])
    run(["xdg-mime", "default", entry.name, MIME])
    return [entry, icon, kind]


def desktop_entry(words: Sequence[str]) -> str:
    """Return the text of the entry that runs ``words`` with the files handed to it."""
    return (
        "[Desktop Entry]\nType=Application\nVersion=1.5\n"
        f"Name={NAME}\nGenericName=Backing fabric workstation\nGenericName[it]=Postazione per i rinforzi\n"
        "Comment=Draft, cut and cost the fabric behind a shoe upper\n"
        "Comment[it]=Disegno, taglio e costo del rinforzo di una tomaia\n"
        f"Exec={' '.join(map(_quoted, words))} %F\nIcon={NAME}\nTerminal=false\n"
        f"Categories=Graphics;Engineering;\nMimeType={MIME};\nStartupWMClass={NAME}\n"
    )


def mime_type() -> str:
    """Return the description of style files: by their ending, above plain JSON."""
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        '<mime-info xmlns="http://www.freedesktop.org/standards/shared-mime-info">\n'
        f'  <mime-type type="{MIME}">\n'
        "    <comment>stayply style</comment>\n"
        '    <comment xml:lang="it">modello stayply</comment>\n'
        '    <sub-class-of type="application/json"/>\n'
        '    <glob pattern="*.style.json" weight="80"/>\n'
        f'    <icon name="{NAME}"/>\n'
        "  </mime-type>\n"
        "</mime-info>\n"
    )


def _quoted(word: str) -> str:
    """An argument of ``Exec``: quoted, then once more as a string of the file; percent signs are doubled."""
    inner = "".join(f"\\{sign}" if sign in QUOTED else sign for sign in word)
    return '"' + inner.replace("\\", "\\\\").replace("%", "%%") + '"'
