"""A child process that speaks JSON lines, dies with its parent, and can be killed at once."""

from __future__ import annotations

import json
import os
import queue
import subprocess
import sys
import threading
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from nesting.system.processes import without_console

PROJECT = Path(__file__).resolve().parent.parent


class Child:
    """A module of ours run by the same Python; events are its lines of output, read as JSON."""

    def __init__(self, module: str, first_line: dict[str, Any] | None = None) -> None:
        environment = engine_environment(os.environ)
        self._process = subprocess.Popen(
            [sys.executable, "-m", module],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            env=environment,
            text=True,
            encoding="utf-8",
            **without_console(),
        )
        self._events: queue.Queue[dict[str, Any] | None] = queue.Queue()
        self._errors: list[str] = []
        self._heard_all = threading.Event()
        threading.Thread(target=self._read, daemon=True).start()
        threading.Thread(target=self._read_errors, daemon=True).start()
        if first_line is not None:
            self.begin(first_line)

    def begin(self, line: dict[str, Any]) -> None:
        """Send a line, which may be a long one, without waiting until it is read."""
        threading.Thread(target=self.send, args=(line,), daemon=True).start()

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
    def process_id(self) -> int:
        """The child's number on this machine."""
        return self._process.pid

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


def child_environment(known: Mapping[str, str]) -> dict[str, str]:
    """Return an environment in which a child Python finds this project's packages, installed or not.

    ``known`` is the environment so far. PYTHONPATH is joined by the system's own separator: ``;`` on
    Windows, where a colon stands in every path.
    """
    path = [str(PROJECT), *filter(None, [known.get("PYTHONPATH", "")])]
    return {**known, "PYTHONPATH": os.pathsep.join(path)}


def engine_environment(known: Mapping[str, str]) -> dict[str, str]:
    """Return ``child_environment`` for an engine: unbuffered, small matrices on one thread, one heap.

    Threads of a linear algebra library cost more than they give on small matrices. With a heap for
    each thread (glibc's default) a lay of 6,000 pieces took 45 MB more. Arrays above 256 kB go back to the
    system as they are freed: by default glibc keeps them once one of up to 32 MB has been freed.
    """
    single = {"OMP_NUM_THREADS": "1", "OPENBLAS_NUM_THREADS": "1"}
    heap = {"MALLOC_ARENA_MAX": "1", "MALLOC_MMAP_THRESHOLD_": "262144"}
    return {**single, **heap, **child_environment(known), "PYTHONUNBUFFERED": "1"}


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
