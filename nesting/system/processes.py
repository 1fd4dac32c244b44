"""Processes as each system runs them: Ctrl-C, groups of their own, how one ended."""

from __future__ import annotations

import contextlib
import ctypes
import os
import signal
import threading
from collections.abc import Callable, Iterator
from typing import Any

from nesting import system

NEW_PROCESS_GROUP = 0x00000200
"""CREATE_NEW_PROCESS_GROUP of Windows' CreateProcess: the child receives no Ctrl-C of this console."""

BELOW_NORMAL_PRIORITY_CLASS = 0x00004000
"""Of Windows' SetPriorityClass; what the process starts inherits it."""

NO_CONSOLE = 0x08000000
"""CREATE_NO_WINDOW of Windows' CreateProcess: no console opens beside the window."""

LOW_NICE = 10
"""How much nicer than others on POSIX: about a tenth of a processor that another process wants too."""

OWN_STATUSES = (0, 1, 2)
"""How a command of ours ends by itself."""


def apart_from_keyboard() -> dict[str, Any]:
    """Return the arguments of Popen for a child that must not receive Ctrl-C at this keyboard."""
    return {"creationflags": NEW_PROCESS_GROUP} if system.WINDOWS else {"start_new_session": True}


def without_console() -> dict[str, Any]:
    """Return the arguments of Popen for a child of the window, which has no console to show."""
    return {"creationflags": NO_CONSOLE} if system.WINDOWS else {}


def was_killed(status: int) -> bool:
    """Whether a process ended by force, from how it ended.

    POSIX tells a signal as a negative status. Windows tells the status that whoever ended it chose, or that
    of the fault (0xC0000005 ...): anything that no command of ours answers with.
    """
    return status not in OWN_STATUSES if system.WINDOWS else status < 0


def work_behind_others(nicer: int = LOW_NICE) -> None:
    """Let this process, and what it starts from now on, work only where nothing else wants a processor.

    ``nicer`` is how much less it gets of one that others want too; Windows knows one step only.
    """
    if not system.WINDOWS:
        os.nice(nicer)
        return
    kernel = ctypes.windll.kernel32  # type: ignore[attr-defined, unused-ignore]
    kernel.SetPriorityClass(kernel.GetCurrentProcess(), BELOW_NORMAL_PRIORITY_CLASS)


@contextlib.contextmanager
def on_interrupt(act: Callable[[], None]) -> Iterator[None]:
    """Call ``act`` on Ctrl-C inside the block (the same signal on Windows); in the main thread only."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = signal.signal(signal.SIGINT, lambda *_: act())
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
