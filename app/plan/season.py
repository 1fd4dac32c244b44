"""Many commands, side by side, that survive interruption: a season's styles overnight.

A task is a command line with the files it reads; it runs in a process of its own in an empty
folder, and what it leaves there is its result. So the same task runs on this machine's cores or on
a cluster's workers without a shared disk. A finished task leaves a stamp of what it was made from;
started again, only tasks without a fitting stamp are done.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import shutil
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable, Generator, Iterable
from concurrent.futures import FIRST_COMPLETED, Future, ThreadPoolExecutor, wait
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from app.errors import UsageError
from geometry.said import said
from nesting.process import child_environment
from nesting.system.files import alike, replace, safe_name
from nesting.system.processes import apart_from_keyboard, on_interrupt, was_killed

STAMP = "task.json"
ENDED = -15
"""Status of a task that was not begun since the season was ended: as if it had been (SIGTERM of POSIX)."""

LOOK_S = 0.1
"""How often it is looked for Ctrl-C."""

TRIES = 3
"""A task whose process was killed from outside is tried this often; a failed check is not retried."""


@dataclass(frozen=True)
class SeasonJob:
    """One command. ``key`` names its folder; ``words`` the command and its arguments, in which
    file names of ``files`` (name -> content) stand as they are."""

    key: str
    words: tuple[str, ...]
    files: dict[str, bytes]

    @property
    def digest(self) -> str:
        """What the result depends on."""
        digest = hashlib.sha256(json.dumps(self.words).encode())
        for name in sorted(self.files):
            digest.update(name.encode() + b"\0" + self.files[name] + b"\0")
        return digest.hexdigest()


@dataclass(frozen=True)
class TaskResult:
    """What a task left: exit status, its JSON object, its messages, its files."""

    key: str
    status: int
    payload: dict[str, Any]
    messages: str
    files: dict[str, bytes]


class _Running:
    """The processes at work on this machine, so that they can be ended together."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._processes: set[subprocess.Popen[str]] = set()
        self.ended = False
        self.interrupted = False

    def interrupt(self) -> None:
        """Note that somebody wants an end; called between any two steps of the main thread, so no more."""
        self.interrupted = True

    def run(self, words: list[str], folder: Path, environment: dict[str, str]) -> tuple[int, str, str]:
        """Run a command; returns its status and what it said."""
        with self._lock:
            if self.ended:
                return ENDED, "", ""
            process = subprocess.Popen(
                words,
                cwd=folder,
                stdin=subprocess.DEVNULL,
                stdout=subprocess.PIPE,
                stderr=subprocess.PIPE,
                text=True,
                encoding="utf-8",
                env=environment,
                # Ctrl-C at the keyboard is for the season alone: a lay that received it would end early
                # with what it has, and count as done
                **apart_from_keyboard(),
            )
            self._processes.add(process)
        try:
            out, err = process.communicate()
        finally:
            with self._lock:
                self._processes.discard(process)
        return process.returncode, out, err

    def end(self) -> None:
        """End them all; none is begun after."""
        with self._lock:
            self.ended = True
            for process in self._processes:
                process.kill()


def run_task(task: SeasonJob, running: _Running | None = None) -> TaskResult:
    """Run a task in a process and folder of its own (also called on a cluster's workers)."""
    running = running or _Running()
    with tempfile.TemporaryDirectory(prefix="stayply-") as name:
        folder = Path(name)
        for file, content in task.files.items():
            (folder / file).write_bytes(content)
        words = [sys.executable, "-m", "app", *task.words, "--json"]
        environment = child_environment(os.environ)
        for _ in range(TRIES):
            status, out, err = running.run(words, folder, environment)
            if running.ended or not was_killed(status):
                break
        try:
            payload = json.loads(out) if out.strip() else {}
        except json.JSONDecodeError:
            payload = {}
        files = {
            path.relative_to(folder).as_posix(): path.read_bytes()
            for path in sorted(folder.rglob("*"))
            if path.is_file() and path.name not in task.files
        }
        return TaskResult(task.key, status, payload, err, files)


def run_season(
    tasks: Iterable[SeasonJob],
    out_dir: Path,
    *,
    workers: int = 2,
    cluster: str = "",
    tell: Callable[[str], None] = lambda text: None,
) -> dict[str, TaskResult]:
    """Run all tasks that are not done yet; return the results of all, by key.

    ``cluster`` is the address of a running Dask scheduler, '' this machine. Raises UsageError when
    two tasks share a key or the cluster cannot be used.
    """
    results: dict[str, TaskResult] = {}
    waiting: list[SeasonJob] = []
    tasks = list(tasks)
    same = alike(task.key for task in tasks)
    if same is not None:
        differ = "" if same[0] == same[1] else f" (one is {same[1]}, one folder on systems that know no case)"
        raise UsageError(
            said("two jobs are both called {0}{1}", same[0], differ), remedy="give the styles different names"
        )
    for task in tasks:
        known = _read(task, out_dir)
        if known is None:
            waiting.append(task)
        else:
            results[task.key] = known
    if results:
        tell(f"{len(results)} done before, {len(waiting)} to do")
    runner = _on_cluster(waiting, cluster) if cluster else _on_this_machine(waiting, workers)
    by_key = {task.key: task for task in waiting}
    with contextlib.closing(runner):
        for result in runner:
            _write(by_key[result.key], result, out_dir)
            results[result.key] = result
            tell(f"{result.key}: {'done' if result.status == 0 else result.messages.strip()[-300:]}")
    return results


def _on_this_machine(tasks: list[SeasonJob], workers: int) -> Generator[TaskResult]:
    running, finished = _Running(), False
    # Ctrl-C is noted and looked for. As an exception it may come while a lock of the pool is held, which then
    # stays so; and a wait without an end does not hear of it at all when it comes just before the wait begins
    # (in both cases the season went on for as long as its jobs take: once in a hundred tries).
    with on_interrupt(running.interrupt), ThreadPoolExecutor(max_workers=max(1, workers)) as pool:
        try:
            waiting: set[Future[TaskResult]] = {pool.submit(run_task, task, running) for task in tasks}
            while waiting:
                if running.interrupted:
                    raise KeyboardInterrupt
                done, waiting = wait(waiting, timeout=LOOK_S, return_when=FIRST_COMPLETED)
                for future in done:
                    yield future.result()
            finished = True
        finally:
            if not finished:  # interrupted: what is not done is begun again the next time
                running.end()
                pool.shutdown(wait=False, cancel_futures=True)


def _on_cluster(tasks: list[SeasonJob], address: str) -> Generator[TaskResult]:
    try:
        from distributed import Client, as_completed
    except ImportError as error:
        raise UsageError(
            "a cluster needs the optional part of the program",
            remedy="install it with: pip install 'stayply[cluster]'",
        ) from error
    try:
        client = Client(address, timeout="10s")
    except (OSError, ValueError) as error:
        raise UsageError(
            said("no scheduler answers at {0}", address), remedy="check the address and that it runs"
        ) from error
    with client:
        for future in as_completed(
            [client.submit(run_task, task, pure=False, retries=TRIES) for task in tasks]
        ):
            yield future.result()


def _folder(task: SeasonJob, out_dir: Path) -> Path:
    return out_dir / safe_name(task.key, "task")


def _read(task: SeasonJob, out_dir: Path) -> TaskResult | None:
    stamp = _folder(task, out_dir) / STAMP
    try:
        data = json.loads(stamp.read_text("utf-8"))
    except (OSError, json.JSONDecodeError):
        return None
    if data.get("digest") != task.digest or data.get("status") != 0:
        return None
    files = {
        name: (stamp.parent / name).read_bytes() for name in data["files"] if (stamp.parent / name).exists()
    }
    if len(files) != len(data["files"]):
        return None
    return TaskResult(task.key, 0, data["payload"], data["messages"], files)


def _write(task: SeasonJob, result: TaskResult, out_dir: Path) -> None:
    """Write files first, into a folder beside, then put it in place: a stamp means all is there."""
    folder = _folder(task, out_dir)
    folder.parent.mkdir(parents=True, exist_ok=True)
    fresh = Path(tempfile.mkdtemp(prefix=f".{task.key}-", dir=folder.parent))
    for name, content in result.files.items():
        path = fresh / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    (fresh / STAMP).write_text(
        json.dumps(
            {
                "digest": task.digest,
                "words": task.words,
                "status": result.status,
                "payload": result.payload,
                "messages": result.messages,
                "files": sorted(result.files),
            },
            ensure_ascii=False,
            indent=1,
        ),
        "utf-8",
    )
    if folder.exists():
        shutil.rmtree(folder)
    replace(fresh, folder)
