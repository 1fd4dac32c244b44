"""Entry of every command: ``python -m app COMMAND ...``; without a command, the window."""

from __future__ import annotations

import argparse
import difflib
import importlib
import io
import json
import logging
import os
import sys
import traceback
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path
from typing import NoReturn

import platformdirs

from app.commands import COMMANDS, Outcome, say
from app.errors import AppError, UnverifiedError, UsageError
from app.lay.live import with_texts
from app.papers.registry import WRITERS
from app.words import LANGUAGES, papers_in
from geometry.errors import GeometryError
from nesting.errors import NestingError

ENGINE_FAILED = "ENGINE"  # code of an engine that ended without a lay: no fault of the input


class Parser(argparse.ArgumentParser):
    """Says what is wrong with the words in one line."""

    def error(self, message: str) -> NoReturn:
        """Raise UsageError instead of printing the whole usage."""
        raise UsageError(message, remedy=f"see: {self.prog} --help")


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status.

    0: done. 1: the work failed a check. 2: what was given is wrong, said in one line.
    """
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="replace")
    logging.getLogger("ezdxf").setLevel(logging.ERROR)  # its advice on caches is not for the desk
    words = list(sys.argv[1:] if argv is None else argv) or ["window"]
    try:
        return _run(words)
    except UnverifiedError as error:
        say(str(error))
        return 1
    except (AppError, GeometryError, NestingError) as error:
        say(str(error))
        return 1 if getattr(error, "code", "") == ENGINE_FAILED else 2
    except KeyboardInterrupt:
        say("stopped")
        return 1
    except BrokenPipeError:  # whoever read our output has read enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except OSError as error:
        if not error.filename:
            say(f"{error.strerror or error}{_logged(words)}")
        else:
            say(f"{error.filename}: {error.strerror}; check the path, the disk and the rights to it")
        return 2
    except Exception as error:
        say(f"this should not have happened ({type(error).__name__}: {error}){_logged(words)}")
        return 2


def _run(words: list[str]) -> int:
    name = words[0]
    if name.startswith("-"):
        _overview().parse_args(words)
        return 0
    if name not in COMMANDS:
        near = difflib.get_close_matches(name, COMMANDS, 1)
        remedy = f"did you mean {near[0]}?" if near else "stayply --help lists the commands"
        raise UsageError(f"there is no command {name}", remedy=remedy)
    module = importlib.import_module(f"app.commands.{COMMANDS[name].module}")
    parser = Parser(prog=f"stayply {name}", description=COMMANDS[name].help)
    module.add_arguments(parser)
    parser.add_argument("--json", action="store_true", help="print one JSON object on standard output")
    if name in WRITERS:
        parser.add_argument(
            "--language", choices=LANGUAGES, default="en", help="language of the papers written (default en)"
        )
    args = parser.parse_args(words[1:])
    with papers_in(getattr(args, "language", "en")):
        outcome: Outcome = module.run(args)
    shown = json.dumps(with_texts(outcome.payload), ensure_ascii=False) if args.json else outcome.text
    print(shown, flush=True)
    return outcome.status


def _overview() -> argparse.ArgumentParser:
    parser = Parser(prog="stayply", description="Draft, nest and cost the fabric that backs a shoe upper.")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)
    for name, command in COMMANDS.items():
        commands.add_parser(name, help=command.help)
    return parser


def _logged(words: Sequence[str]) -> str:
    """Write the details of the exception at hand to a log; says where they are."""
    path = Path(platformdirs.user_log_dir("stayply", appauthor=False)) / "errors.log"
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("a", encoding="utf-8") as log:
            log.write(f"{datetime.now():%Y-%m-%d %H:%M:%S} {list(words)}\n{traceback.format_exc()}\n")
    except OSError:
        return "; nothing was changed"
    return f"; the details are in {path}, please send them to the makers"


if __name__ == "__main__":
    sys.exit(main())
