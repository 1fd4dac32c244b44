"""Where a command writes the style it changed: over the style it read, or beside it."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from app.errors import UsageError
from app.style.file import load_style, save_style
from app.style.model import Style
from app.style.on_disk import fingerprint
from geometry.errors import DeskError


def add_out_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments that say where the changed style goes."""
    parser.add_argument("style", type=Path, help="a style file")
    parser.add_argument(
        "-o", "--out", type=Path, metavar="STYLE2", help="where to write (default: the style itself)"
    )
    parser.add_argument("--force", action="store_true", help="replace another file that exists")


@dataclass(frozen=True)
class StyleOnDisk:
    """A style as it was read, and where its change goes. ``write`` refuses to lose what others wrote."""

    style: Style
    out: Path
    known: str

    @staticmethod
    def read(args: argparse.Namespace) -> StyleOnDisk:
        """Read the style; raises UsageError when ``--out`` names another file that exists."""
        out: Path = args.out or args.style
        known = fingerprint(out)
        style = load_style(args.style)
        if out.exists() and not args.force and out.resolve() != args.style.resolve():
            raise UsageError(
                "there is a file of this name already", file=str(out), remedy="choose another, or --force"
            )
        return StyleOnDisk(style, out, known)

    def write(self, style: Style) -> None:
        """Write the changed style."""
        save_style(style, self.out, known=self.known)


@contextmanager
def about(style: Path) -> Iterator[None]:
    """Whatever is wrong in here and names no file is about this style."""
    try:
        yield
    except DeskError as error:
        error.file = error.file or str(style)
        raise
