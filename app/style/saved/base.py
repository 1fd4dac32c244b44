"""The base of all models of the style file: frozen, and unknown fields survive a round trip."""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

Coordinate = Annotated[float, Field(ge=-1e7, le=1e7)]  # mm; 10 km of leather is a damaged file
Point = tuple[Coordinate, Coordinate]
Points = tuple[Point, ...]


class Model(BaseModel):
    """Base: immutable, keeps what it does not know."""

    model_config = ConfigDict(frozen=True, extra="allow", allow_inf_nan=False)
