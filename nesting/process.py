"""A child process that speaks JSON lines, dies with its parent, and can be killed at once."""

from __future__ import annotations

import json
import os
import queue
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

PROJECT = Path(__file__).resolve().parent.parent


class Child:
    """A module of ours run by the same Python; events are its lines of output, read as JSON."""

    def __init__(self, module: str, first_line: dict[str, Any]) -> None:
        environment = {**os.environ, "PYTHONPATH": _path(), "PYTHONUNBUFFERED": "1"}
        for variable in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS"):
            environment.setdefault(variable, "1")  # small matrices: threads cost more than they give
        # glibc: one heap for all threads, or each keeps its own and 6,000 pieces take 45 MB more
        environment.setdefault("MALLOC_ARENA_MAX", "1")
        self._process = subprocess.Popen(
            [sys.executable, "-m", module],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            env=environment,
            text=True,
            encoding="utf-8",
        )
        self._events: queue.Queue[dict[str, Any] | None] = queue.Queue()
        self._errors: list[str] = []
        self._heard_all = threading.Event()
        threading.Thread(target=self._read, daemon=True).start()
        threading.Thread(target=self._read_errors, daemon=True).start()
        self._writer = threading.Thread(target=self.send, args=(first_line,), daemon=True)
        self._writer.start()

    def send(self, line: dict[str, Any]) -> None:
        """Send a line; nothing happens when the child is gone."""
        stdin = self._process.stdin
        assert stdin is not None
        try:
            stdin.write(json.dumps(line) + "\n")
            stdin.flush()
        except (OSError, ValueError):
            return

    def event(self, wait_s: float) -> dict[str, Any] | None:
        """Return the next event; None when none came in time. Raises EOFError after the last one."""
        try:
            found = self._events.get(timeout=max(0.0, wait_s))
        except queue.Empty:
            return None
        if found is None:
            self._events.put(None)
            raise EOFError
        return found

    def waiting_events(self) -> Iterator[dict[str, Any]]:
        """Yield the events that have come already."""
        while True:
            try:
                found = self._events.get_nowait()
            except queue.Empty:
                return
            if found is None:
                self._events.put(None)
                return
            yield found

    @property
    def ended(self) -> bool:
        """Whether the child is gone and everything it said has been read."""
        return self._process.poll() is not None and self._heard_all.is_set() and self._events.qsize() <= 1

    @property
    def last_words(self) -> str:
        """The last line the child wrote to its standard error."""
        return self._errors[-1] if self._errors else ""

    def kill(self) -> None:
        """End the child at once, and wait until it has ended."""
        if self._process.poll() is None:
            self._process.kill()
        self._process.wait()
        for stream in (self._process.stdin, self._process.stdout, self._process.stderr):
            try:
                if stream is not None:
                    stream.close()
            except (OSError, ValueError):
                continue

    def _read(self) -> None:
        stdout = self._process.stdout
        assert stdout is not None
        try:
            for line in stdout:
                try:
                    self._events.put(json.loads(line))
                except ValueError:
                    self._errors.append(line.strip())
        except (OSError, ValueError):
            pass
        self._events.put(None)
        self._heard_all.set()

    def _read_errors(self) -> None:
        stderr = self._process.stderr
        assert stderr is not None
        try:
            for line in stderr:
                if line.strip():
                    self._errors.append(line.strip())
                    del self._errors[:-20]
        except (OSError, ValueError):
            return


def _path() -> str:
    """Let the child find this project's packages even when they are not installed."""
    known = os.environ.get("PYTHONPATH")
    return os.pathsep.join([str(PROJECT), *([known] if known else [])])


def say(event: dict[str, Any]) -> None:
    """Write an event (in the child)."""
    sys.stdout.write(json.dumps(event) + "\n")
    sys.stdout.flush()


def lines_or_die(on_line: Any) -> None:
    """In the child: hand every further line of standard input to ``on_line``, in a thread.

    When the input ends the parent is gone, and this process ends with it.
    """

    def watch() -> None:
        for line in sys.stdin:
            try:
                on_line(json.loads(line))
            except ValueError:
                continue
        os._exit(3)

    threading.Thread(target=watch, daemon=True).start()
