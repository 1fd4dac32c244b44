"""Compile the kernels ahead of first use: ``python -m nesting.engine.compile_kernels``.

Compiled code is kept beside the sources; after an update, or on a new machine, this takes about half
a minute, and a second otherwise. Set-up calls it once.
"""

from __future__ import annotations

import numpy as np

from geometry.outline import Outline
from nesting.compaction.lays import PoseContacts
from nesting.free import first_layout, sections, shortening
from nesting.free.section_parts import RepeatedSection
from nesting.items import Item
from nesting.lattice.densest import two_way
from nesting.listen import Silent
from nesting.problem import LayProblem
from nesting.roll import Flaw, Roll
from nesting.rows import production
from nesting.stop import Never


def main() -> None:
    """Lay a few small pieces by every engine that compiles."""
    hollow = Outline.make([(0, 0), (40, 0), (40, 10), (15, 12), (15, 25), (40, 30), (0, 30)])
    items = (Item("a", hollow, 4), Item("b", hollow.mirrored(), 4))
    flaw = Flaw(np.array([(60.0, 20.0), (64.0, 20.0), (64.0, 24.0)]))
    problem = LayProblem(Roll(100.0, flaws=(flaw,)), items, gap_mm=1.0)
    lay = first_layout.solve(problem)
    contacts = PoseContacts(problem)
    shortening.shorten(problem, lay, contacts, seed=0, stop=Never(), better=lambda _: None, tries=1)
    whole = sections._Whole(problem, (RepeatedSection(problem, 2),), Silent(), lay)
    whole.better(lay)
    rows = LayProblem(Roll(200.0), (Item("a", hollow, 20), Item("b", hollow.mirrored(), 20)), gap_mm=1.0)
    production.solve(rows, workers=1, work=1)
    two_way(hollow, 1.0, starts=2)  # the quick estimate of costing, and rows of a die


if __name__ == "__main__":
    main()
