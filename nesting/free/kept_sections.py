"""Sections as they are kept: each begins from the best of it that any lay, plan or costing found before."""

from __future__ import annotations

from nesting.known import exact_key, from_data, record_of, to_data
from nesting.known.derive import derived
from nesting.known.folder import KeptFiles
from nesting.lay import Lay
from nesting.problem import LayProblem


def find(store: KeptFiles | None, section: LayProblem) -> Lay | None:
    """Return the shortest lay of a section that is kept, judged again; None when there is none that holds."""
    if store is None:
        return None
    key = _key(section)
    found = store.find(key)
    if found is None:
        return None
    lay = derived(section, known) if (known := from_data(found)) is not None else None
    if lay is None:
        store.forget(key)
    return lay


def keep(store: KeptFiles | None, section: LayProblem, lay: Lay) -> None:
    """Keep a lay of a section, unless a shorter one is kept."""
    if store is None:
        return
    before = find(store, section)
    if before is None or lay.length_mm < before.length_mm:
        store.keep(_key(section), to_data(record_of(section, lay)))


def _key(section: LayProblem) -> str:
    return f"section-{exact_key(section)}"
