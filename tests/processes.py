"""Processes of Linux as tests see them: who lives, who is whose child, that they end."""

import os
import time

HANG_S = 600.0
"""Only so that a test that fails ends."""


def alive(pid: int) -> bool:
    """Whether a process runs; one that has ended and is not yet waited for does not."""
    try:
        with open(f"/proc/{pid}/stat", encoding="utf-8") as file:
            return file.read().rsplit(")", 1)[1].split()[0] != "Z"
    except OSError:
        return False


def children_of(pid: int) -> list[int]:
    """Return the processes that a process has begun."""
    found = []
    for entry in os.listdir("/proc"):
        if entry.isdigit():
            try:
                with open(f"/proc/{entry}/stat", encoding="utf-8") as file:
                    parent = int(file.read().rsplit(")", 1)[1].split()[1])
            except (OSError, IndexError):
                continue
            if parent == pid:
                found.append(int(entry))
    return found


def all_end(pids: list[int]) -> bool:
    """Wait until none of the processes is left; no event tells the end of a grandchild."""
    end = time.monotonic() + HANG_S
    while any(alive(pid) for pid in pids) and time.monotonic() < end:
        time.sleep(0.05)
    return not any(alive(pid) for pid in pids)
