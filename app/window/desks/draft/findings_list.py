"""What was noticed: findings beside the board; a click shows the place."""

from __future__ import annotations

from PySide6.QtCore import (
    QAbstractListModel,
    QCoreApplication,
    QModelIndex,
    QPersistentModelIndex,
    QRect,
    QRectF,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QFontMetrics, QPainter, QPen, QResizeEvent
from PySide6.QtWidgets import (
    QLabel,
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QVBoxLayout,
    QWidget,
)

from app.window.widgets.icons import icon_pixmap
from app.window.widgets.marks import SEVERITY_ROLE
from app.window.widgets.theme import theme, ui_font
from app.window.wording.core_words import told_finding, told_text
from app.window.wording.words import severity_count, severity_name
from geometry.findings import Finding, Severity

translate = QCoreApplication.translate
Index = QModelIndex | QPersistentModelIndex
ORDER = (Severity.ERROR, Severity.WARNING, Severity.QUESTION, Severity.NOTE)
LEFT_PX = 34


class FindingModel(QAbstractListModel):
    """Rows are findings: those of the selected piece first, of these and of the others the gravest first."""

    def __init__(self) -> None:
        super().__init__()
        self.rows: list[Finding] = []

    def set_rows(self, rows: list[Finding], piece: str) -> None:
        """Show other findings, those of ``piece`` first."""
        ordered = sorted(
            rows,
            key=lambda finding: (not piece or finding.piece != piece, ORDER.index(finding.severity)),
        )
        if ordered == self.rows:
            return
        self.beginResetModel()
        self.rows = ordered
        self.endResetModel()

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self.rows)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        finding = self.rows[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            return told_finding(finding)
        if role == Qt.ItemDataRole.ToolTipRole:
            return f"{severity_name(finding.severity)} · {finding.code}\n" + "\n".join(
                told_text(part) for part in (finding.message, finding.done, finding.advice) if part
            )
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{severity_name(finding.severity)}: {told_finding(finding)}"
        return None


class FindingDelegate(QStyledItemDelegate):
    """Paints a finding: sign of its severity, place, message, and below what to do."""

    def _texts(self, finding: Finding) -> tuple[str, str, str]:
        place = " ".join(part for part in (finding.piece, finding.size) if part)
        below = "; ".join(told_text(part) for part in (finding.done, finding.advice) if part)
        message = told_text(finding.message)
        return place, message[:1].upper() + message[1:], below

    def _heights(self, finding: Finding, width: int) -> tuple[int, int, int]:
        place, message, below = self._texts(finding)
        wide = max(width - LEFT_PX - 12, 60)
        wrap = int(Qt.TextFlag.TextWordWrap)
        big = QRect(0, 0, wide, 4000)
        head = QFontMetrics(ui_font(8.5, bold=True)).height() if place else 0
        body = QFontMetrics(ui_font(9)).boundingRect(big, wrap, message).height()
        foot = QFontMetrics(ui_font(8.5)).boundingRect(big, wrap, below).height() if below else 0
        return head, body, foot

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        view: QListView = self.parent()  # type: ignore[assignment]
        width = view.viewport().width()
        finding: Finding = index.model().rows[index.row()]  # type: ignore[attr-defined]
        return QSize(width, sum(self._heights(finding, width)) + 15)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        t = theme()
        finding: Finding = index.model().rows[index.row()]  # type: ignore[attr-defined]
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        rect: QRect = option.rect
        state = option.state
        if state & QStyle.StateFlag.State_Selected:
            painter.fillRect(rect, t.colour("accent_soft"))
        elif state & QStyle.StateFlag.State_MouseOver:
            painter.fillRect(rect, t.colour("panel_deep"))
        painter.setPen(QPen(t.colour("line"), 1))
        painter.drawLine(rect.left() + LEFT_PX, rect.bottom(), rect.right() - 8, rect.bottom())
        role = SEVERITY_ROLE[finding.severity]
        sign = icon_pixmap(
            finding.severity.value,
            18,
            getattr(t, role),
            getattr(t, role),
            painter.device().devicePixelRatioF(),
        )
        painter.drawPixmap(rect.left() + 9, rect.top() + 8, sign)
        place, message, below = self._texts(finding)
        head, body, foot = self._heights(finding, rect.width())
        x, y, wide = rect.left() + LEFT_PX, rect.top() + 7, rect.width() - LEFT_PX - 12
        wrap = Qt.TextFlag.TextWordWrap
        if place:
            painter.setFont(ui_font(8.5, bold=True))
            painter.setPen(t.colour("ink_soft"))
            painter.drawText(QRectF(x, y, wide, head), 0, place)
        painter.setFont(ui_font(9))
        painter.setPen(t.colour("ink"))
        painter.drawText(QRectF(x, y + head, wide, body + 2), wrap, message)
        if foot:
            painter.setFont(ui_font(8.5))
            painter.setPen(t.colour("ink_soft"))
            painter.drawText(QRectF(x, y + head + body, wide, foot + 2), wrap, below)
        painter.restore()


class _View(QListView):
    """Keeps the finding that was clicked in sight when something is shown below."""

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self.currentIndex().isValid():
            self.scrollTo(self.currentIndex())


class FindingsList(QWidget):
    """``picked`` carries the finding that is to be shown on the board."""

    picked = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._column = layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        self._head = QLabel()
        self._head.setProperty("role", "heading")
        self._head.setContentsMargins(12, 10, 12, 6)
        layout.addWidget(self._head)
        self.view = _View()
        self.model = FindingModel()
        self.model.setParent(self)
        self.view.setModel(self.model)
        self.view.setItemDelegate(FindingDelegate(self.view))
        self.view.setFrameShape(QListView.Shape.NoFrame)
        self.view.setMouseTracking(True)
        self.view.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.view.setResizeMode(QListView.ResizeMode.Adjust)
        self.view.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.view.setAccessibleName(translate("Draft", "Findings"))
        self.view.clicked.connect(self._clicked)
        self.view.activated.connect(self._clicked)
        layout.addWidget(self.view, 1)
        self.show_findings([])

    def add_below(self, widget: QWidget) -> None:
        """Put a widget below the list: what is offered for the finding clicked."""
        self._column.addWidget(widget)

    def show_findings(self, findings: list[Finding], piece: str = "") -> None:
        """Show findings, those of ``piece`` first, and how many of which severity in the head."""
        self.model.set_rows(findings, piece)
        counts = [
            severity_count(severity, sum(f.severity is severity for f in findings))
            for severity in ORDER
            if any(f.severity is severity for f in findings)
        ]
        title = translate("Draft", "Findings")
        self._head.setText(
            f"{title}  ·  " + ", ".join(counts) if counts else f"{title}  ·  " + translate("Draft", "none")
        )

    def _clicked(self, index: QModelIndex) -> None:
        self.picked.emit(self.model.rows[index.row()])
