"""Figures taken where nobody has said another: each with unit, reason and source (``workshop``, ``work``).

``page`` makes docs/defaults.md of them: ``python -m app.defaults > docs/defaults.md``.
"""
