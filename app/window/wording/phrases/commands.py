"""What the commands that the window runs say on their way, for translation."""

from __future__ import annotations

from PySide6.QtCore import QT_TRANSLATE_NOOP

PHRASES: tuple[str, ...] = tuple(
    str(phrase)
    for phrase in (
        QT_TRANSLATE_NOOP("Core", "--plies {0} is not valid"),
        QT_TRANSLATE_NOOP("Core", "--seconds {0} is not valid"),
        QT_TRANSLATE_NOOP("Core", "--seed {0} is not valid"),
        QT_TRANSLATE_NOOP("Core", "--width is for one cloth, the style is cut from {0}"),
        QT_TRANSLATE_NOOP("Core", "--widths: {0} is not a roll width"),
        QT_TRANSLATE_NOOP("Core", "--workers {0} is not valid"),
        QT_TRANSLATE_NOOP("Core", "--{0} {1} is not an amount of money"),
        QT_TRANSLATE_NOOP("Core", "--{0} {1} is not valid"),
        QT_TRANSLATE_NOOP("Core", "--{0} {1} mm is not valid"),
        QT_TRANSLATE_NOOP("Core", "add --cloth"),
        QT_TRANSLATE_NOOP("Core", "choose another -o"),
        QT_TRANSLATE_NOOP("Core", "give --plies N"),
        QT_TRANSLATE_NOOP("Core", "give 0 to 100"),
        QT_TRANSLATE_NOOP("Core", "give 0.1 to 86400"),
        QT_TRANSLATE_NOOP("Core", "give a --reason to write it all the same"),
        QT_TRANSLATE_NOOP("Core", "give a number from 0"),
        QT_TRANSLATE_NOOP("Core", "hold: not judged, {0}"),
        QT_TRANSLATE_NOOP("Core", "hold, lay {0}: {1}"),
        QT_TRANSLATE_NOOP("Core", "how many plies may be cut at once is not known"),
        QT_TRANSLATE_NOOP("Core", "is a file, not a folder"),
        QT_TRANSLATE_NOOP("Core", "leave out --each or --rolls"),
        QT_TRANSLATE_NOOP("Core", "locked lays are of one style"),
        QT_TRANSLATE_NOOP("Core", "may not be written to"),
        QT_TRANSLATE_NOOP("Core", "name it OUT.dxf"),
        QT_TRANSLATE_NOOP(
            "Core", "no order given: every size counts as one pair (--pairs or --run weights them)"
        ),
        QT_TRANSLATE_NOOP("Core", "no order is given"),
        QT_TRANSLATE_NOOP("Core", "no piece of this style is backed"),
        QT_TRANSLATE_NOOP("Core", "nothing else is lost"),
        QT_TRANSLATE_NOOP("Core", "plan it by itself, or leave out --locked"),
        QT_TRANSLATE_NOOP("Core", "rename one of them"),
        QT_TRANSLATE_NOOP("Core", "rolls are shared out in one plan"),
        QT_TRANSLATE_NOOP("Core", "round {0}: choosing lays"),
        QT_TRANSLATE_NOOP("Core", "round {0}: nesting a lay with sets of pieces: {1}"),
        QT_TRANSLATE_NOOP("Core", "improving the lay with sets of pieces: {0}"),
        QT_TRANSLATE_NOOP("Core", "the backing is written as DXF"),
        QT_TRANSLATE_NOOP("Core", "the plan was not written: a lay breaks a hold limit"),
        QT_TRANSLATE_NOOP("Core", "the work goes on without it"),
        QT_TRANSLATE_NOOP("Core", "two styles have the same name"),
        QT_TRANSLATE_NOOP("Core", "write 1200,1400 or 42in,44in"),
        QT_TRANSLATE_NOOP("Core", "write it like 2.50"),
        QT_TRANSLATE_NOOP("Core", "write the styles' names as in their files"),
        QT_TRANSLATE_NOOP("Core", "{0} is not a price"),
        QT_TRANSLATE_NOOP("Core", "{0} is none of the styles given ({1})"),
        QT_TRANSLATE_NOOP("Core", "{0}: kept lays could not be read and were set aside as {1}"),
        QT_TRANSLATE_NOOP("Core", "{0}: lays cannot be kept there"),
        QT_TRANSLATE_NOOP("Core", "{0}: setting out {1} in one stack"),
        QT_TRANSLATE_NOOP("Core", "going on from the {0}"),
        QT_TRANSLATE_NOOP("Core", "{0} was not written: backings that vanished: {1}"),
        QT_TRANSLATE_NOOP("Core", "the lay is not kept for the next time: {0}"),
        QT_TRANSLATE_NOOP("Core", "kept lay of {0}"),
        QT_TRANSLATE_NOOP("Core", "the run is not entered in the history: {0}"),
        QT_TRANSLATE_NOOP("Core", "the history cannot be read: {0}"),
        QT_TRANSLATE_NOOP("Core", "{0} (and {1} more alike)"),
        QT_TRANSLATE_NOOP("Core", "warning"),
        QT_TRANSLATE_NOOP("Core", "question"),
        QT_TRANSLATE_NOOP("Core", "error"),
    )
)
