"""What geometry, nesting and app say, clause by clause, for translation.

``PHRASES`` holds them all; {0}, {1}, ... stand for what is filled in (``geometry.said``).
tests/app/window/test_core_words.py finds a clause that is missing here.
"""

from __future__ import annotations

from app.window.wording.phrases import commands, drawings, drawn, pieces, production, stretch, work

PHRASES = frozenset(
    phrase
    for module in (commands, drawings, drawn, pieces, production, stretch, work)
    for phrase in module.PHRASES
)
