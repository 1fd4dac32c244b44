"""The workshop's own defaults, kept where the system expects settings.

A new style starts with a copy of them, so that a style is the same on every machine and
does not change when the workshop changes its rules later.
"""

from __future__ import annotations

import json
import os
from pathlib import Path

import platformdirs
from pydantic import ValidationError

from app.atomic import write_whole
from app.errors import StyleFileError
from app.style.model import EdgeRuleData, HouseRules
from geometry.edge_kinds import EDGE_RULES
from geometry.said import said


def rules_path() -> Path:
    """Where the house rules lie; the variable STAYPLY_CONFIG_DIR moves them."""
    folder = os.environ.get("STAYPLY_CONFIG_DIR") or platformdirs.user_config_dir("stayply", appauthor=False)
    return Path(folder) / "house-rules.json"


def program_rules() -> HouseRules:
    """The program's own defaults, every edge kind written out with its reason."""
    edge_rules = {
        kind: EdgeRuleData(setback_mm=rule.setback_mm, allowance_mm=rule.allowance_mm, reason=rule.reason)
        for kind, rule in EDGE_RULES.items()
    }
    return HouseRules(edge_rules=edge_rules)


def load_rules() -> HouseRules:
    """Return the workshop's rules over the program's; raises StyleFileError when damaged."""
    path = rules_path()
    program = program_rules()
    try:
        workshop = HouseRules.model_validate_json(path.read_bytes())
    except FileNotFoundError:
        return program
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        place = ".".join(str(step) for step in first["loc"])
        raise StyleFileError(
            said("the house rules are damaged ({0}: {1})", place or "file", first["msg"]),
            file=str(path),
            remedy="correct or remove the file",
        ) from None
    except OSError as error:
        raise StyleFileError(said("cannot be read ({0})", error.strerror), file=str(path)) from None
    return workshop.model_copy(update={"edge_rules": {**program.edge_rules, **workshop.edge_rules}})


def save_rules(rules: HouseRules) -> None:
    """Keep the workshop's rules; raises StyleFileError when they cannot be written."""
    path = rules_path()
    text = json.dumps(rules.model_dump(mode="json"), ensure_ascii=False, indent=2) + "\n"
    try:
        write_whole(path, text)
    except OSError as error:
        raise StyleFileError(
            said("cannot be written ({0})", error.strerror or error),
            file=str(path),
            remedy="check the folder",
        ) from None
