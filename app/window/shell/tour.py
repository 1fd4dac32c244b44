"""The five-minute tour: a strip at the foot of the window that says what to try next."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtWidgets import QDockWidget, QHBoxLayout, QLabel, QMainWindow, QPushButton, QVBoxLayout, QWidget

from app.window.shell.start_page import sample_files
from app.window.widgets.theme import theme, ui_font

translate = QCoreApplication.translate
STRIP_PX = 110


@dataclass(frozen=True)
class TourStop:
    """One stop: the desk it is at, its title and what to try."""

    desk: str
    title: str
    text: str


def stops() -> list[TourStop]:
    """The stops in the order of the job."""
    return [
        TourStop(
            "draft",
            translate("Tour", "The upper and its backing"),
            translate(
                "Tour",
                "Each tan piece is a piece of the upper as it is cut; the blue-grey one over it is its backing. Wheel to zoom; drag with the middle button, or with Ctrl+Shift held, to move the board.",
            ),
        ),
        TourStop(
            "draft",
            translate("Tour", "What happens at an edge"),
            translate(
                "Tour",
                "Click an edge and press 1 to 8, or choose a kind at the right: lasting, folded, underlay… The kind sets how far the backing stops short. Sweep over several edges with the mouse to mark them at once.",
            ),
        ),
        TourStop(
            "draft",
            translate("Tour", "The pull"),
            translate(
                "Tour",
                "The arrow is the way lasting pulls the piece, heel to toe. Drag its ends or type the angle: on the roll it will lie along the cloth's tight direction.",
            ),
        ),
        TourStop(
            "draft",
            translate("Tour", "Suggestions need confirming"),
            translate(
                "Tour",
                "Edges that glow violet and dashed arrows are suggestions. Confirm one with Enter, a piece with Shift+Enter; the list at the right shows what is left.",
            ),
        ),
        TourStop(
            "draft",
            translate("Tour", "Draw on the backing"),
            translate(
                "Tour",
                "X cuts the backing along a line you click, Shift+X beside the selected edge. R keeps a layer of its own cloth inside a region, Shift+R along the edge. W splits it in parts, Shift+J backs two pieces in one. All sizes follow.",
            ),
        ),
        TourStop(
            "draft",
            translate("Tour", "By hand, and along an edge"),
            translate(
                "Tour",
                "J changes a stretch by hand, Shift+C smooths it. Shift+S lets a setback run from one value to another; B breaks an edge, Shift+B all corners, Shift+A selects all edges of a kind. Shift+Backspace removes what was drawn.",
            ),
        ),
        TourStop(
            "draft",
            translate("Tour", "Notches, holes, words"),
            translate(
                "Tour",
                "Q sets a notch, Y a drill hole, I a slit, Shift+I a mark; Shift+Q makes relief cuts along a curved fold, Shift+W writes a word. On the upper, the backing or both, as chosen above the board.",
            ),
        ),
        TourStop(
            "draft",
            translate("Tour", "Half patterns and twins"),
            translate(
                "Tour",
                "Shift+U unfolds a half pattern over its centre edge, Shift+F folds a piece. Shift+M mirrors it to a twin, Shift+T copies all to the twin, Shift+L keeps the two alike. Ctrl+D duplicates a piece, Shift+Del deletes it.",
            ),
        ),
        TourStop(
            "draft",
            translate("Tour", "New pieces, drawn or from card patterns"),
            translate(
                "Tour",
                "T draws a rectangle and Shift+O a free shape as a new piece, Shift+G one of typed figures: an upper, or a backing alone. Ctrl+Shift+A adds pieces of another drawing, Ctrl+Shift+T card patterns from a photograph or a scan.",
            ),
        ),
        TourStop(
            "draft",
            translate("Tour", "Measure and compare"),
            translate(
                "Tour",
                "M measures between two points, Shift+E sews two edges and shows their difference, Shift+N lays all sizes over each other. H draws the hold line. Ctrl+2 has the sizes; Ctrl+3 lengths, areas, and two sizes or versions compared.",
            ),
        ),
        TourStop(
            "draft",
            translate("Tour", "A revised drawing"),
            translate(
                "Tour",
                "Ctrl+Shift+N gives the pieces the outlines of a revised drawing. What was marked and drawn on them stays; what could not be carried is listed, to accept or refuse piece by piece.",
            ),
        ),
        TourStop(
            "cloth",
            translate("Tour", "The cloth"),
            translate(
                "Tour",
                "Width, usable width, tight direction and price. Drag on the roll to mark a flaw; the lay will keep clear of it.",
            ),
        ),
        TourStop(
            "lay",
            translate("Tour", "The lay"),
            translate(
                "Tour",
                "Say how many pairs of each size and fill the roll; stop when you like, the best lay stays. Then move pieces by hand: faults show while you drag.",
            ),
        ),
        TourStop(
            "lay",
            translate("Tour", "Printing and export"),
            translate(
                "Tour",
                "Ctrl+E writes the files for the cutter, Ctrl+P prints: the lay plan, the cut ticket, the lay at full size. A lay with a fault is never exported. On the draft desk the same keys give the boards.",
            ),
        ),
        TourStop(
            "cost",
            translate("Tour", "What a pair costs"),
            translate("Tour", "Cloth per pair by size, yield, price; compare roll widths side by side."),
        ),
    ]


class Tour(QDockWidget):
    """The strip; it opens a sample style and brings the right desk to the front."""

    def __init__(self, window: QMainWindow) -> None:
        super().__init__(translate("Tour", "Tour"), window)
        self.setFeatures(QDockWidget.DockWidgetFeature.DockWidgetClosable)
        self.setTitleBarWidget(QWidget())  # the strip says itself what it is
        self._window = window
        self._stops: list[TourStop] = []
        self._at = 0
        body = QWidget()
        layout = QHBoxLayout(body)
        layout.setContentsMargins(18, 10, 18, 12)
        layout.setSpacing(10)
        body.setFixedHeight(STRIP_PX)
        body.setObjectName("tour")
        body.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        soft, line = theme().accent_soft, theme().accent
        body.setStyleSheet(f"#tour {{ background: {soft}; border-top: 2px solid {line}; }}")
        words = QVBoxLayout()
        self._title = QLabel()
        self._title.setFont(ui_font(11, bold=True))
        self._text = QLabel()
        self._text.setWordWrap(True)
        words.addWidget(self._title)
        words.addWidget(self._text)
        layout.addLayout(words, 1)
        self._count = QLabel()
        self._count.setProperty("role", "soft")
        layout.addWidget(self._count)
        self._back = QPushButton(translate("Tour", "Back"))
        self._next = QPushButton(translate("Tour", "Next"))
        self._close = QPushButton(translate("Tour", "Leave the tour"))
        self._close.clicked.connect(self.hide)
        layout.addWidget(self._close)
        layout.addWidget(self._back)
        layout.addWidget(self._next)
        self._back.clicked.connect(self._go_back)
        self._next.clicked.connect(self._go_on)
        self.setWidget(body)
        window.addDockWidget(Qt.DockWidgetArea.BottomDockWidgetArea, self)
        self.hide()

    def begin(self) -> None:
        """Start at the first stop, on the open style or the first sample."""
        window = self._window
        if window.session.document is None:  # type: ignore[attr-defined]
            samples = sample_files()
            if samples:
                window.open_path(samples[0])  # type: ignore[attr-defined]
        names = {desk.name for desk in window.desks}  # type: ignore[attr-defined]
        self._stops = [stop for stop in stops() if stop.desk in names]
        self._at = 0
        self.show()
        self._show_stop()

    def _go_back(self) -> None:
        self._at = max(self._at - 1, 0)
        self._show_stop()

    def _go_on(self) -> None:
        if self._at + 1 >= len(self._stops):
            self.hide()
            return
        self._at += 1
        self._show_stop()

    def _show_stop(self) -> None:
        if not self._stops:
            return
        stop = self._stops[self._at]
        self._title.setText(stop.title)
        self._text.setText(stop.text)
        self._count.setText(f"{self._at + 1} / {len(self._stops)}")
        self._back.setEnabled(self._at > 0)
        last = self._at + 1 == len(self._stops)
        self._next.setText(translate("Tour", "Finish") if last else translate("Tour", "Next"))
        desks = self._window.desks  # type: ignore[attr-defined]
        self._window.show_desk([desk.name for desk in desks].index(stop.desk))  # type: ignore[attr-defined]
