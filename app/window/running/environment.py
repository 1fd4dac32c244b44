"""An environment of names and values, as Qt hands it to a process."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QProcessEnvironment


def qt_environment(values: Mapping[str, str]) -> QProcessEnvironment:
    """Return the environment as QProcess takes it."""
    environment = QProcessEnvironment()
    for name, value in values.items():
        environment.insert(name, value)
    return environment
