"""Numbers say their unit: a float field of a value type ends in a unit or is listed as having none."""

from __future__ import annotations

import dataclasses
import importlib
import inspect
import pkgutil
import re
import typing

import pytest
from pydantic import BaseModel

import app
import geometry
import nesting

UNITS = (
    "_mm", "_mm2", "_m", "_m2", "_deg", "_s", "_ms", "_n", "_n_per_mm", "_mpa", "_c", "_percent",
    "_g_per_m2", "_per_m", "_per_m2", "_per_mm", "_pt", "_px", "_n_mm", "_per_s",
)  # fmt: skip
UNITLESS = re.compile(
    r"(^|_)(seconds|metres|mm|factor|share|ratio|limit|yield_?|gap|density|scale|fraction|weight|utilisation|"
    r"cost|price|per_lay|per_layer|overcut|worth|bound|pairs|confidence|coverage|probability|zoom|level|value|"
    r"low|high|best|mean|scatter|misfit_p|bend|r2|every|zero|added|extra|blocked|free|shear|shear_blocked|shear_free|nu12|nu21|nuxy|(m2|metres|cost)_per_pair|step|strain)$"
)
"""Numbers without a unit (shares, ratios, money, counts), or with that of whatever they bound."""


DRAWING_UNITS = ("geometry.dxf.lines.collect",)
"""Modules whose numbers stand in the drawing's own unit, which is not known yet."""


def _types() -> list[type]:
    found: dict[str, type] = {}
    for package in (geometry, nesting, app):
        for info in pkgutil.walk_packages(package.__path__, package.__name__ + "."):
            if info.name.startswith(("app.window", *DRAWING_UNITS)) or info.name.endswith("__main__"):
                continue
            module = importlib.import_module(info.name)
            for name, cls in inspect.getmembers(module, inspect.isclass):
                if name.startswith("_"):
                    continue
                if cls.__module__ == info.name and (
                    dataclasses.is_dataclass(cls) or issubclass(cls, BaseModel)
                ):
                    found[f"{info.name}.{cls.__qualname__}"] = cls
    return list(found.values())


def _is_float(hint: object) -> bool:
    """A number, or one that may be missing; containers speak through their own types."""
    return hint is float or typing.get_args(hint) in ((float, type(None)), (type(None), float))


@pytest.mark.parametrize("cls", _types(), ids=lambda cls: f"{cls.__module__}.{cls.__qualname__}")
def test_float_fields_name_their_unit(cls: type) -> None:
    try:
        hints = typing.get_type_hints(cls, include_extras=True)
    except NameError:
        pytest.skip("a name known to the type checker only")
    own = (
        {f.name for f in dataclasses.fields(cls)}
        if dataclasses.is_dataclass(cls)
        else set(typing.cast(type[BaseModel], cls).model_fields)
    )
    silent = [
        name
        for name in sorted(own)
        if not name.startswith("_")
        and _is_float(hints.get(name))
        and not name.endswith(UNITS)
        and not UNITLESS.search(name)
    ]
    assert not silent, f"say the unit in the name of {', '.join(silent)}"
