"""The form of a trial: which of its fields there are follows from its kind."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from PySide6.QtCore import QCoreApplication, QUrl, Signal
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import (
    QComboBox,
    QFileDialog,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.style.model import Style
from app.window.widgets.chooser import Chooser
from app.window.widgets.fields import LengthField, NumberField, TextField
from app.window.widgets.figures import localised
from app.window.widgets.lengths import Lengths
from app.workshop.trial_book import Trial

translate = QCoreApplication.translate
PICTURES = "*.jpg *.jpeg *.png *.tif *.tiff *.heic *.webp"


class TrialForm(QWidget):
    """``entered``: the button was pressed. ``fields`` are then what was typed."""

    entered = Signal()
    refused = Signal(str)

    def __init__(self, lengths: Lengths) -> None:
        super().__init__()
        self.photos: tuple[str, ...] = ()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        row = QHBoxLayout()
        self.kind = _choice(translate("Trials", "Kind"), kinds())
        self.kind.activated.connect(self._kind_chosen)
        self.piece = _choice(translate("Trials", "Piece"), {})
        self.of_size = _choice(translate("Trials", "Size"), {})
        self.cloth = _choice(translate("Trials", "Cloth"), {})
        self.piece.activated.connect(self._piece_chosen)
        for title, box in (
            (translate("Trials", "Kind"), self.kind),
            (translate("Trials", "Piece"), self.piece),
            (translate("Trials", "Size"), self.of_size),
            (translate("Trials", "Cloth"), self.cloth),
        ):
            row.addWidget(QLabel(title))
            row.addWidget(box)
            row.addSpacing(6)
        row.addStretch(1)
        column.addLayout(row)
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        self.results: dict[str, NumberField | QComboBox] = {}
        self._shown_for: dict[str, tuple[str, list[QWidget]]] = {}
        for kind, fields in _results().items():
            for place, (name, title, tip) in enumerate(fields):
                label = QLabel(title)
                field: NumberField | QComboBox
                if name in ("show_through", "ridge"):
                    field = _choice(title, grades())
                else:
                    if name.endswith("_mm") and name != "peel_n_per_mm":
                        step = 0.5 if name == "side_length_mm" else 0.1
                        field = LengthField(title, lengths, step_mm=step, optional=True, digits=2)
                    else:
                        field = NumberField(title, step=0.1, optional=True, digits=2)
                    field.setFixedWidth(92)
                    field.refused.connect(self.refused)
                field.setToolTip(tip)
                label.setToolTip(tip)
                grid.addWidget(label, 0, 2 * place)
                grid.addWidget(field, 0, 2 * place + 1)
                self.results[name] = field
                self._shown_for[name] = (kind, [label, field])
        grid.setColumnStretch(8, 1)
        column.addLayout(grid)
        row = QHBoxLayout()
        self.verdict = _choice(translate("Trials", "Verdict"), verdicts())
        self.note = TextField()
        self.note.setAccessibleName(translate("Trials", "Note"))
        self.add_photo = QPushButton(translate("Trials", "Photos…"))
        self.add_photo.setToolTip(
            translate("Trials", "Their paths are kept in the book; the files stay where they are")
        )
        self.add_photo.clicked.connect(self._ask_photos)
        self.photo_names = QLabel()
        self.photo_names.setProperty("role", "soft")
        self.add = QPushButton(translate("Trials", "Enter in the trial book"))
        self.add.clicked.connect(self.entered)
        row.addWidget(QLabel(translate("Trials", "Verdict")))
        row.addWidget(self.verdict)
        row.addSpacing(6)
        row.addWidget(QLabel(translate("Trials", "Note")))
        row.addWidget(self.note, 1)
        row.addWidget(self.add_photo)
        row.addWidget(self.photo_names)
        row.addWidget(self.add)
        column.addLayout(row)
        self._kind_chosen()

    def show_style(self, style: Style) -> None:
        """Offer the pieces, chains, sizes and cloths of a style."""
        self._style = style
        chains = {chain.name: f"{chain.name}: {' + '.join(chain.pieces)}" for chain in style.hold_chains}
        _offer(self.piece, {piece.name: piece.name for piece in style.pieces} | chains)
        before = self.of_size.count()
        _offer(self.of_size, {size: size for size in style.size_run.sizes})
        if not before:
            self.of_size.setCurrentIndex(self.of_size.findData(style.size_run.base))
        _offer(self.cloth, {cloth.id: cloth.name for cloth in style.cloths})

    def relook(self) -> None:
        """The unit of display may have changed."""
        for field in self.results.values():
            if isinstance(field, LengthField):
                field.relook()

    def fields(self) -> dict[str, Any]:
        """Return what was typed, as fields of a trial."""
        kind = str(self.kind.currentData())
        found: dict[str, Any] = {}
        for name, (of, _) in self._shown_for.items():
            field = self.results[name]
            if of == kind:
                found[name] = field.value if isinstance(field, NumberField) else field.currentData()
        return {
            "kind": kind,
            "piece": str(self.piece.currentData() or ""),
            "size": str(self.of_size.currentData() or ""),
            "cloth": str(self.cloth.currentData() or ""),
            "verdict": self.verdict.currentData(),
            "note": self.note.text().strip(),
            "photos": self.photos,
            **found,
        }

    def empty(self) -> None:
        """Be ready for the next trial."""
        for field in self.results.values():
            if isinstance(field, NumberField):
                field.set_value(None)
            else:
                field.setCurrentIndex(0)
        self.note.clear()
        self.set_photos(())

    def set_photos(self, paths: tuple[str, ...]) -> None:
        """Note the pictures of the trial to be entered."""
        self.photos = paths
        self.photo_names.setText(
            ", ".join(Path(path).name for path in paths[:2]) + (" …" if len(paths) > 2 else "")
        )

    def _ask_photos(self) -> None:
        names, _ = QFileDialog.getOpenFileNames(
            self,
            translate("Trials", "Photos of the trial"),
            "",
            translate("Trials", "Pictures ({0})").format(PICTURES),
        )
        if names:
            self.set_photos(tuple(str(Path(name).resolve()) for name in names))

    def _kind_chosen(self, index: int = 0) -> None:
        kind = self.kind.currentData()
        for of, widgets in self._shown_for.values():
            for widget in widgets:
                widget.setVisible(of == kind)

    def _piece_chosen(self, index: int) -> None:
        """A piece brings the cloth behind it."""
        name = str(self.piece.currentData())
        chain = next((each for each in self._style.hold_chains if each.name == name), None)
        layers = self._style.piece(name if chain is None else chain.pieces[0]).layers
        if layers:
            self.cloth.setCurrentIndex(self.cloth.findData(layers[0].cloth or self._style.cloths[0].id))


def open_photo(path: str) -> bool:
    """Show a picture in the program that the desk has for it; False where there is no such file."""
    return Path(path).is_file() and QDesktopServices.openUrl(QUrl.fromLocalFile(path))


def results_text(trial: Trial, lengths: Lengths) -> str:
    """Return what a trial measured, in a few words."""
    said = {
        "mark_after_lasting_mm": translate("Trials", "{0} off the mark"),
        "mark_after_delasting_mm": translate("Trials", "delasted {0}"),
        "side_length_mm": translate("Trials", "side {0}"),
        "peel_n_per_mm": translate("Trials", "peel {0} N/mm"),
        "composite_percent": translate("Trials", "stretch {0} %"),
        "show_through": translate("Trials", "show-through: {0}"),
        "ridge": translate("Trials", "ridge: {0}"),
        "skive_mm": translate("Trials", "{0} at the edge"),
    }
    parts = []
    for name, text in said.items():
        value = getattr(trial, name)
        if value is None:
            continue
        if name in ("show_through", "ridge"):
            told = grades()[value]
        elif name == "skive_mm":
            told = lengths.text(value, 2)
        else:
            told = lengths.text(value) if name in _LENGTHS else localised(f"{value:g}")
        parts.append(text.format(told))
    return ", ".join(parts)


_LENGTHS = ("mark_after_lasting_mm", "mark_after_delasting_mm", "side_length_mm")


def kinds() -> dict[str, str]:
    """Return the kinds of trials and their names."""
    return {
        "lasting": translate("Trials", "lasting"),
        "fused-sample": translate("Trials", "fused sample"),
        "skiving": translate("Trials", "skiving check"),
    }


def verdicts() -> dict[str, str]:
    """Return the verdicts and their names."""
    return {
        "good": translate("Trials", "good"),
        "doubtful": translate("Trials", "doubtful"),
        "bad": translate("Trials", "bad"),
    }


def grades() -> dict[int | None, str]:
    """Return the grades of what shows on the face, and their names."""
    return {
        None: translate("Trials", "not assessed"),
        0: translate("Trials", "none"),
        1: translate("Trials", "in raking light"),
        2: translate("Trials", "visible"),
        3: translate("Trials", "reject"),
    }


def _results() -> dict[str, tuple[tuple[str, str, str], ...]]:
    """By kind: field, title, explanation."""
    return {
        "lasting": (
            (
                "mark_after_lasting_mm",
                translate("Trials", "Throat off its mark"),
                translate("Trials", "On the last, after lasting; minus where it lies short of the mark"),
            ),
            (
                "mark_after_delasting_mm",
                translate("Trials", "after delasting"),
                translate("Trials", "The same, after delasting"),
            ),
            (
                "side_length_mm",
                translate("Trials", "Side length"),
                translate("Trials", "Heel to throat along the side, after lasting"),
            ),
        ),
        "fused-sample": (
            (
                "peel_n_per_mm",
                translate("Trials", "Peel N/mm"),
                translate("Trials", "Force that peels the bond, per width of the strip"),
            ),
            (
                "composite_percent",
                translate("Trials", "Stretch %"),
                translate("Trials", "Of upper with backing, at the working pull"),
            ),
            (
                "show_through",
                translate("Trials", "Show-through"),
                translate("Trials", "Weave, glue or colour coming through to the face"),
            ),
            (
                "ridge",
                translate("Trials", "Ridge"),
                translate("Trials", "Edge of the backing visible or felt on the face"),
            ),
        ),
        "skiving": (
            (
                "skive_mm",
                translate("Trials", "Thickness at the edge"),
                translate("Trials", "Thickness of upper and backing together after skiving"),
            ),
        ),
    }


def _choice(name: str, texts: dict[Any, str]) -> QComboBox:
    box = Chooser()
    box.setAccessibleName(name)
    for value, text in texts.items():
        box.addItem(text, value)
    return box


def _offer(box: QComboBox, texts: dict[str, str]) -> None:
    if [box.itemText(i) for i in range(box.count())] == list(texts.values()):
        return
    kept = box.currentData()
    box.clear()
    for value, text in texts.items():
        box.addItem(text, value)
    box.setCurrentIndex(max(box.findData(kept), 0))
