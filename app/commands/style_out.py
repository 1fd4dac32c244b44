"""Where a command writes the style it changed: over the style it read, or beside it."""

from __future__ import annotations

import argparse
from dataclasses import dataclass
from pathlib import Path

from app.errors import UsageError
from app.style.file import load_style, save_style
from app.style.model import Style
from app.style.on_disk import changed_since, fingerprint


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
    source: Path
    out: Path
    known: object

    @staticmethod
    def read(args: argparse.Namespace) -> StyleOnDisk:
        """Read the style; raises UsageError when ``--out`` names another file that exists."""
        style = load_style(args.style)
        out: Path = args.out or args.style
        if out.exists() and not args.force and out.resolve() != args.style.resolve():
            raise UsageError(
                "there is a file of this name already", file=str(out), remedy="choose another, or --force"
            )
        return StyleOnDisk(style, args.style, out, fingerprint(args.style))

    def write(self, style: Style) -> None:
        """Write the changed style."""
        if self.out.resolve() == self.source.resolve() and changed_since(self.source, self.known):  # type: ignore[arg-type]
            raise UsageError(
                "was changed by another program meanwhile", file=str(self.out), remedy="run it again"
            )
        save_style(style, self.out)
