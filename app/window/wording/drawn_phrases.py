"""What the core says of things drawn on pieces, clause by clause, for translation (see ``core_phrases``)."""

from __future__ import annotations

from PySide6.QtCore import QT_TRANSLATE_NOOP

DRAWN_PHRASES: tuple[str, ...] = tuple(
    str(phrase)
    for phrase in (
        QT_TRANSLATE_NOOP("Core", "begin on a piece"),
        QT_TRANSLATE_NOOP("Core", "click where the line begins"),
        QT_TRANSLATE_NOOP("Core", "the line needs more points"),
        QT_TRANSLATE_NOOP("Core", "a stretch is changed by hand, by up to {0} mm"),
        QT_TRANSLATE_NOOP("Core", "kept in every size"),
        QT_TRANSLATE_NOOP("Core", "take it back where the derived outline will do"),
        QT_TRANSLATE_NOOP(
            "Core", "a stretch changed by hand lies {0} mm from an edge whose setback is {1} mm"
        ),
        QT_TRANSLATE_NOOP(
            "Core", "a stretch changed by hand lies {0} mm beyond an edge whose setback is {1} mm"
        ),
        QT_TRANSLATE_NOOP("Core", "kept as drawn"),
        QT_TRANSLATE_NOOP("Core", "take it back, or make the setback smaller if the backing may lie there"),
        QT_TRANSLATE_NOOP("Core", "a stretch changed by hand leaves no sound outline"),
        QT_TRANSLATE_NOOP("Core", "left out"),
        QT_TRANSLATE_NOOP("Core", "draw it again, or take it back"),
        QT_TRANSLATE_NOOP("Core", "the line that splits {0} from {1} crosses no backing"),
        QT_TRANSLATE_NOOP("Core", "left in one"),
        QT_TRANSLATE_NOOP("Core", "draw the line across the backing, or take the split away"),
        QT_TRANSLATE_NOOP("Core", "{0} setback(s) change along a short edge as if there were a corner"),
        QT_TRANSLATE_NOOP("Core", "taken as given"),
        QT_TRANSLATE_NOOP("Core", "break the edge, or bring the two values nearer to each other"),
        QT_TRANSLATE_NOOP("Core", "the backings of {0} do not meet"),
        QT_TRANSLATE_NOOP("Core", "left in parts"),
        QT_TRANSLATE_NOOP("Core", "draw the pieces where they lie in the upper, or back them one by one"),
        QT_TRANSLATE_NOOP("Core", "an edge of {0} lies on a joined piece by {1} of its length only"),
        QT_TRANSLATE_NOOP("Core", "set back all along"),
        QT_TRANSLATE_NOOP("Core", "break the edge where the seam ends"),
        QT_TRANSLATE_NOOP("Core", "{0} drawn notch(es) or hole(s) lie beside the backing"),
        QT_TRANSLATE_NOOP("Core", "left out on the backing"),
        QT_TRANSLATE_NOOP("Core", "move them, or put them on the upper only"),
        QT_TRANSLATE_NOOP("Core", "the cut line misses the piece"),
        QT_TRANSLATE_NOOP("Core", "draw it across the piece"),
        QT_TRANSLATE_NOOP("Core", "the cut line crosses itself"),
        QT_TRANSLATE_NOOP("Core", "draw it again"),
        QT_TRANSLATE_NOOP("Core", "the cut line does not divide the piece"),
        QT_TRANSLATE_NOOP("Core", "draw it from edge to edge across the piece"),
        QT_TRANSLATE_NOOP("Core", "it is not clear which side of the cut line to keep"),
        QT_TRANSLATE_NOOP("Core", "click well inside the side to keep"),
        QT_TRANSLATE_NOOP("Core", "the region to back is no closed outline"),
        QT_TRANSLATE_NOOP("Core", "the region to back lies off the piece"),
        QT_TRANSLATE_NOOP("Core", "the region is too small for corners of {0} mm"),
        QT_TRANSLATE_NOOP("Core", "make the radius smaller"),
    )
)
