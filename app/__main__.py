"""Entry of every command: ``python -m app COMMAND ...``; without a command, the window."""

from __future__ import annotations

import argparse
import importlib
import json
import sys
from collections.abc import Sequence

from app.commands import COMMANDS, Outcome
from app.errors import AppError
from geometry.errors import GeometryError
from nesting.errors import NestingError


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status.

    0 done; 1 the work itself failed a check; 2 bad input or usage, said in one line.
    """
    words = list(sys.argv[1:] if argv is None else argv)
    if not words:
        words = ["window"]
    try:
        name = words[0]
        if name in COMMANDS:
            module = importlib.import_module(f"app.commands.{COMMANDS[name].module}")
            parser = argparse.ArgumentParser(prog=f"stayply {name}", description=COMMANDS[name].help)
            module.add_arguments(parser)
            parser.add_argument(
                "--json", action="store_true", help="print one JSON object on standard output"
            )
            args = parser.parse_args(words[1:])
            outcome: Outcome = module.run(args)
            print(json.dumps(outcome.payload, ensure_ascii=False) if args.json else outcome.text)
            return outcome.status
        parser = argparse.ArgumentParser(prog="stayply", description="The fabric that backs a shoe upper.")
        commands = parser.add_subparsers(title="commands", metavar="COMMAND")
        for name, command in COMMANDS.items():
            commands.add_parser(name, help=command.help)
        parser.parse_args(words)
        return 0
    except (AppError, GeometryError, NestingError) as error:
        print(f"stayply: {' '.join(str(error).split())}", file=sys.stderr)
        return 2
    except KeyboardInterrupt:
        print("stayply: stopped", file=sys.stderr)
        return 1


if __name__ == "__main__":
    sys.exit(main())
