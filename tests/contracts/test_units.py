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
    r"(^|_)(seconds|factor|factors|share|ratio|limit|yield|gap|density|scale|nu12|nu21|fraction|weight|"
    r"utilisation|cost|costs|price|r2|confidence|sets|count|counts|probability|chance|zoom|kL|kW|"
    r"alpha|version|level|value|values|matrix|demand|rows|cols|coefficients|excess|metres|per_lay|per_layer|overcut|bound|seen)$"
)


def _types() -> list[type]:
    found: dict[str, type] = {}
    for package in (geometry, nesting, app):
        for info in pkgutil.walk_packages(package.__path__, package.__name__ + "."):
            if info.name.startswith("app.window") or info.name.endswith("__main__"):
                continue
            module = importlib.import_module(info.name)
            for _, cls in inspect.getmembers(module, inspect.isclass):
                if cls.__module__ == info.name and (
                    dataclasses.is_dataclass(cls) or issubclass(cls, BaseModel)
                ):
                    found[f"{info.name}.{cls.__qualname__}"] = cls
    return list(found.values())


def _holds_float(hint: object) -> bool:
    if hint is float:
        return True
    return any(_holds_float(part) for part in typing.get_args(hint))


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
        if _holds_float(hints.get(name))
        and not name.lstrip("_").endswith(UNITS)
        and not UNITLESS.search(name.lstrip("_"))
    ]
    assert not silent, f"say the unit in the name of {', '.join(silent)}"
