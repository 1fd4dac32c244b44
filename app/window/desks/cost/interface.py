"""What the cost desk's helpers may use of it."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QStackedWidget

from app.measures import Measures
from app.style.model import ClothData, Style
from app.window.desks.base import Desk
from app.window.desks.cost.results import Results
from app.window.desks.cost.run.plan_page import PlanPage
from app.window.desks.cost.side import CostSide


class CostBench(Desk):
    """The order, what is counted and what is planned; ``CostDesk`` is the one that does it."""

    side: CostSide
    results: Results
    plan_page: PlanPage
    pages: QStackedWidget

    @property
    def measures(self) -> Measures:
        """Metres with millimetres, yards with inches."""
        raise NotImplementedError

    @property
    def cloth(self) -> ClothData | None:
        """The cloth that is costed."""
        raise NotImplementedError

    def counted(self) -> tuple[Style, str, dict[str, Any]] | None:
        """The style, the cloth and the cost object of all that is counted; None while nothing is."""
        raise NotImplementedError
