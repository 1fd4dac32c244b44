"""Whether a window can be shown: Windows and macOS have a screen, elsewhere a display server says so."""

from __future__ import annotations

from collections.abc import Mapping

from nesting import system


def has_screen(environment: Mapping[str, str]) -> bool:
    """Whether a display is named, or Qt's platform is chosen by hand."""
    if system.WINDOWS or system.MAC:
        return True
    return any(environment.get(name) for name in ("QT_QPA_PLATFORM", "DISPLAY", "WAYLAND_DISPLAY"))
