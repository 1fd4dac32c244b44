"""Results on the cost desk: by roll width, by cloth, by size, and what moves the cost."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from PySide6.QtCore import QCoreApplication, Signal
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QHeaderView

from app.cost.cloths import HoldVerdict
from app.cost.compare import ComparedWidth
from app.lay.longer import LEAST_GAIN, no_change
from app.measures import METRIC, Measures
from app.window.widgets.lengths import Lengths
from app.window.widgets.table import Table
from app.window.widgets.theme import theme
from app.window.wording.words import yield_means
from geometry.said import percent

translate = QCoreApplication.translate


def compared_heads(measures: Measures) -> list[str]:
    """Return the heads of figures that widths and cloths have in common."""
    return [
        translate("Cost", "Usable"),
        translate("Cost", "Lay length"),
        translate("Cost", "Yield"),
        translate("Cost", "Utilisation"),
        translate("Cost", "{0} per pair").format(measures.length_unit),
        translate("Cost", "{0} per pair").format(measures.area_sign),
        translate("Cost", "Cost per pair"),
    ]


def yield_tip() -> str:
    """Return what the figures in a column of yields say."""
    longer = translate(
        "Cost",
        "In brackets: the points that a minute of search is likely to add, and how far that scatters "
        "(docs/benchmarks.md). Differences within the scatter are no difference",
    )
    return f"{yield_means()}\n{longer}"


def with_longer(share: str, row: Mapping[str, Any]) -> str:
    """Return a yield with what a longer search is likely to add, in points, and how far that scatters."""
    longer = row.get("longer_search")
    if longer is None or longer["gain"] < LEAST_GAIN:
        return share
    return f"{share} (+{100 * longer['gain']:.1f} ± {100 * longer['scatter']:.1f})"


def change_text(row: Mapping[str, Any], own: Mapping[str, Any], change: float) -> str:
    """Return by how much a line differs from what was costed; differences within the scatter are none."""
    if row is own:
        return translate("Cost", "as costed")
    return translate("Cost", "no difference") if no_change(row, own) else percent(change, sign=True)


def compared_cells(result: ComparedWidth, lengths: Lengths, measures: Measures) -> list[str]:
    """Return the figures of a width or a cloth counted."""
    row = result.row
    return [
        lengths.text(result.width.usable_width_mm, 0),
        measures.length_text(row["lay_length_mm"] / 1000, 3),
        with_longer(percent(row["yield"]), row),
        percent(row["utilisation"]),
        f"{measures.length(row['metres_per_pair']):.4f}",
        f"{measures.area(row['m2_per_pair']):.4f}",
        "–" if result.cost_per_pair is None else str(result.cost_per_pair),
    ]


def verdict_word(verdict: HoldVerdict) -> str:
    """Return the verdict of the hold in a word or two."""
    if verdict.holds:
        return translate("Cost", "holds")
    if verdict.holds is False:
        return translate("Cost", "breaks: {0}").format(verdict.piece)
    if verdict.piece:
        return translate("Cost", "a trial must decide")
    return translate("Cost", "not judged")


def eligible(verdict: HoldVerdict, all_verdicts: Sequence[HoldVerdict]) -> bool:
    """Whether a cloth may be called the cheapest: it holds, or none is known to and it is not known to break."""
    if any(each.holds for each in all_verdicts):
        return verdict.holds is True
    return verdict.holds is not False


class ResultTable(Table):
    """A line per width counted; ``chosen`` carries the row selected."""

    chosen = Signal(int)

    def __init__(self) -> None:
        super().__init__(
            [translate("Cost", "Roll width"), *compared_heads(METRIC)],
            translate("Cost", "Results by roll width"),
        )
        _explain(self, 3)
        for column in (1, 3):
            self.horizontalHeader().setSectionResizeMode(column, QHeaderView.ResizeMode.ResizeToContents)
        self.itemSelectionChanged.connect(self._selected)

    def show_results(
        self,
        results: Sequence[tuple[str, ComparedWidth]],
        lengths: Lengths,
        measures: Measures,
        waiting: Sequence[str],
    ) -> None:
        """Show what is counted, then the widths that are still to come."""
        self.show_heads([translate("Cost", "Roll width"), *compared_heads(measures)])
        self.head(3).setToolTip(yield_tip())
        rows = [[name, *compared_cells(result, lengths, measures)] for name, result in results]
        rows += [[name, "…", *[""] * 6] for name in waiting]
        self.fill(rows, bold=_cheapest([result.cost_per_pair for _, result in results]))
        self.words_first()
        self.fit(8, yields_to=3)

    def _selected(self) -> None:
        if self.selectedIndexes():
            self.chosen.emit(self.selectedIndexes()[0].row())


class ClothResults(Table):
    """A line per cloth counted, with whether the backing holds; ``chosen`` carries the row selected.

    In a narrow window what a pair costs and whether it holds stay.
    """

    left_out, first_px = (2, 6, 3, 5, 1), 110

    chosen = Signal(int)

    def __init__(self) -> None:
        super().__init__(
            [
                translate("Cost", "Cloth"),
                translate("Cost", "Roll width"),
                *compared_heads(METRIC),
                translate("Cost", "Hold"),
            ],
            translate("Cost", "Results by cloth"),
        )
        _explain(self, 4)
        for column in range(1, 10):
            self.horizontalHeader().setSectionResizeMode(column, QHeaderView.ResizeMode.ResizeToContents)
        self.itemSelectionChanged.connect(self._selected)

    def show_results(
        self,
        results: Sequence[tuple[str, ComparedWidth, HoldVerdict]],
        lengths: Lengths,
        measures: Measures,
        waiting: Sequence[str],
    ) -> None:
        """Show what is counted, then the cloths that are still to come; the cheapest that holds is bold."""
        self.show_heads(
            [translate("Cost", "Cloth"), translate("Cost", "Roll width"), *compared_heads(measures),
             translate("Cost", "Hold")]
        )  # fmt: skip
        rows = [
            [
                name,
                lengths.text(result.width.width_mm, 0),
                *compared_cells(result, lengths, measures),
                verdict_word(verdict),
            ]
            for name, result, verdict in results
        ]
        rows += [[name, "…", *[""] * 8] for name in waiting]
        costs = [
            result.cost_per_pair if eligible(verdict, [each for _, _, each in results]) else None
            for _, result, verdict in results
        ]
        self.fill(rows, bold=_cheapest(costs, some=True))
        self.words_first((0, 9))
        for row, (_, _, verdict) in enumerate(results):
            cell = self.cell(row, 9)
            cell.setToolTip(verdict.why or verdict_word(verdict))
            if verdict.holds is False:
                cell.setForeground(QColor(theme().error))
        self.fit(8, yields_to=3)
        self.make_room()

    def _selected(self) -> None:
        if self.selectedIndexes():
            self.chosen.emit(self.selectedIndexes()[0].row())


class SizeTable(Table):
    """What a pair of each size takes: net and quick before any lay, then as the lay selected says."""

    def __init__(self) -> None:
        super().__init__(size_heads(METRIC), translate("Cost", "Fabric per pair by size"))
        for column, tip in enumerate(
            (
                translate("Cost", "Area of the pieces alone"),
                translate("Cost", "Each piece in its own closest rows, without margins and ends"),
                translate("Cost", "The lay as nested, without ends of plies and selvedges"),
                translate("Cost", "All cloth paid for: ends, selvedges, splices and rejects too"),
            ),
            start=2,
        ):
            self.head(column).setToolTip(tip)

    def show_figures(
        self,
        result: ComparedWidth | None,
        quick: Mapping[str, Any] | None,
        pairs: Mapping[str, int],
        measures: Measures,
    ) -> None:
        """Show a width's figures by size; without one the quick estimate, as far as it is there."""
        self.show_heads(size_heads(measures))
        if result is not None:
            cost = result.paper()
            average = {**cost["average"], "size": "", "order_cost": cost["total"]["cost"]}
            rows = [*cost["per_pair"], average]
        elif quick is not None:
            rows = [*quick["per_pair"], {**quick["average"], "size": ""}]
        else:
            rows = [{"size": size} for size in pairs]
        self.fill(
            [
                [
                    row["size"] or translate("Cost", "average"),
                    str(pairs.get(row["size"], 0) if row["size"] else sum(pairs.values())),
                    *(
                        _figure(row.get(key), measures.area)
                        for key in ("net_m2", "quick_m2", "lay_m2", "gross_m2")
                    ),
                    _figure(row.get("metres"), measures.length),
                    row.get("cost") or "–",
                    row.get("order_cost") or "–",
                ]
                for row in rows
            ],
            bold=len(rows) - 1 if not rows or rows[-1]["size"] == "" else -1,
        )
        self.words_first()
        self.fit(13, yields_to=4)


def size_heads(measures: Measures) -> list[str]:
    """Return the heads of the figures by size."""
    area = measures.area_sign
    return [
        translate("Cost", "Size"),
        translate("Cost", "Pairs"),
        translate("Cost", "Net {0}").format(area),
        translate("Cost", "Quick {0}").format(area),
        translate("Cost", "Lay {0}").format(area),
        translate("Cost", "Gross {0}").format(area),
        translate("Cost", "{0} per pair").format(measures.length_unit),
        translate("Cost", "Cost per pair"),
        translate("Cost", "All pairs"),
    ]


class SensitivityTable(Table):
    """A line for every value tried: what was varied, what a pair then takes and costs."""

    left_out, first_px = (1, 3, 2), 150

    def __init__(self) -> None:
        super().__init__(self._heads(METRIC), translate("Cost", "Sensitivity of the cost per pair"))
        for column in range(1, self.columnCount()):
            self.horizontalHeader().setSectionResizeMode(column, QHeaderView.ResizeMode.ResizeToContents)

    @staticmethod
    def _heads(measures: Measures) -> list[str]:
        return [
            translate("Cost", "What is varied"),
            translate("Cost", "Lay length"),
            translate("Cost", "Yield"),
            translate("Cost", "{0} per pair").format(measures.area_sign),
            translate("Cost", "Cost per pair"),
            translate("Cost", "Change"),
        ]

    def show_tables(self, told: Mapping[str, Any] | None, lengths: Lengths) -> None:
        """Show all tables of a sensitivity one below the other; the lines as costed stand out."""
        measures = lengths.measures
        self.show_heads(self._heads(measures))
        self.head(2).setToolTip(yield_tip())
        rows: list[list[str]] = []
        own_rows: list[int] = []
        for key in ("gap", "end_loss", "plies", "order") if told is not None else ():
            assert told is not None
            own = next(row for row in told[key] if row["own"])
            for row in told[key]:
                change = row["metres_per_pair"] / own["metres_per_pair"] - 1
                own_rows += [len(rows)] if row["own"] else []
                rows.append(
                    [
                        varied_words(key, row, lengths),
                        measures.length_text(row["lay_length_mm"] / 1000, 3),
                        with_longer(percent(row["yield"]), row),
                        f"{measures.area(row['m2_per_pair']):.4f}",
                        row["cost_per_pair"] or "–",
                        change_text(row, own, change),
                    ]
                )
        self.fill(rows)
        for row_number in own_rows:
            for column in range(self.columnCount()):
                font = self.cell(row_number, column).font()
                font.setBold(True)
                self.cell(row_number, column).setFont(font)
        self.words_first()
        for number, row in enumerate(rows):
            self.cell(number, 0).setToolTip(row[0])
        self.make_room()


def varied_words(key: str, row: Mapping[str, Any], lengths: Lengths) -> str:
    """Return in words what was varied."""
    if key == "gap":
        return translate("Cost", "gap {0}").format(_short(row["gap_mm"], lengths))
    if key == "end_loss":
        return translate("Cost", "end loss {0}").format(_short(row["end_loss_mm"], lengths))
    if key == "plies":
        cut = row["plies"] * row["pairs_in_lay"]
        return translate("Cost", "plies × pairs: {0} × {1} = {2}").format(
            row["plies"], row["pairs_in_lay"], cut
        )
    return translate("Cost", "pairs ordered: {0}").format(row["pairs"])


def _short(mm: float, lengths: Lengths) -> str:
    return f"{lengths.short(mm)} {lengths.unit.value}"


def _cheapest(costs: Sequence[Decimal | None], *, some: bool = False) -> int:
    """The row of the least cost; -1 when one has none (with ``some``: when none has one)."""
    known = [cost for cost in costs if cost is not None]
    if not known or (len(known) < len(costs) and not some):
        return -1
    return costs.index(min(known))


def _explain(table: Table, first: int) -> None:
    table.head(first).setToolTip(yield_means())
    table.head(first + 1).setToolTip(
        translate(
            "Cost",
            "Utilisation: net area of the pieces / all cloth paid for (ends, selvedges and rejects too)",
        )
    )


def _figure(value: float | None, unit: Any) -> str:
    return "–" if value is None else f"{unit(value):.4f}"
