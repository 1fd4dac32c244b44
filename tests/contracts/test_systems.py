"""What only one system knows stands in nesting/system (and in start.py), nowhere else."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGES = ("geometry", "nesting", "app")
HOME = ROOT / "nesting" / "system"

MODULES = {
    "_winapi", "fcntl", "grp", "msvcrt", "posix", "pty", "pwd", "resource", "signal", "syslog", "termios",
    "tty", "winreg",
}  # fmt: skip
"""Modules of the standard library that one system lacks, and ``signal``, which has others on each."""

CALLS = {
    "os": {
        "chown", "execv", "execve", "execvp", "fchmod", "fork", "forkpty", "fsync", "getegid", "geteuid",
        "getgid", "getloadavg", "getpgid", "getuid", "kill", "killpg", "linesep", "link", "mkfifo", "name",
        "nice", "rename", "replace", "sched_getaffinity", "sep", "setpgid", "setsid", "startfile", "symlink",
        "sync", "umask", "uname", "wait", "waitpid",
    },
    "sys": {"platform", "getwindowsversion"},
    "platform": {"system", "win32_ver", "mac_ver"},
    "ctypes": {"windll", "cdll", "CDLL"},
    "multiprocessing": {"set_start_method"},
}  # fmt: skip
"""Attributes of modules that one system lacks or answers otherwise. ``os.replace`` fails on Windows while
anybody has the file open: ``nesting.system.files.replace`` waits for that."""

WORDS = {"preexec_fn", "start_new_session", "creationflags", "process_group", "pass_fds"}
"""Arguments of Popen that one system refuses."""

TEXT = {"read_text", "write_text", "open", "fdopen", "TextIOWrapper", "NamedTemporaryFile"}
"""Calls that take the system's own code page where no encoding is named."""

FOLDERS = ("/proc/", "/dev/", "/etc/", "/tmp", "/var/")
CHILDREN = {"run", "Popen", "call", "check_output", "check_call"}


def _faults(source: str) -> list[str]:
    found = []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            found += [
                f"{node.lineno}: import {a.name}" for a in node.names if a.name.split(".")[0] in MODULES
            ]
        elif isinstance(node, ast.ImportFrom) and not node.level:
            module = node.module or ""
            if module.split(".")[0] in MODULES:
                found.append(f"{node.lineno}: from {module}")
            names = CALLS.get(module, set())
            found += [f"{node.lineno}: from {module} import {a.name}" for a in node.names if a.name in names]
        elif isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
            if node.attr in CALLS.get(node.value.id, set()):
                found.append(f"{node.lineno}: {node.value.id}.{node.attr}")
        elif isinstance(node, ast.Call):
            found += [f"{node.lineno}: {k.arg}=" for k in node.keywords if k.arg in WORDS]
            if _reads_text_by_code_page(node):
                found.append(f"{node.lineno}: text without its encoding")
        elif isinstance(node, ast.Constant) and str(node.value).startswith(FOLDERS):
            found.append(f"{node.lineno}: {node.value}")
    return found


def _reads_text_by_code_page(call: ast.Call) -> bool:
    named = {k.arg for k in call.keywords}
    name = call.func.attr if isinstance(call.func, ast.Attribute) else getattr(call.func, "id", "")
    if name in CHILDREN:
        return bool(named & {"text", "universal_newlines"}) and "encoding" not in named
    if name not in TEXT or "encoding" in named:
        return False
    of = call.func.value if isinstance(call.func, ast.Attribute) else None
    if name == "open" and isinstance(of, ast.Name) and of.id in ("os", "Image", "webbrowser"):
        return False
    if name in ("read_text", "write_text"):
        places = 0 if name == "read_text" else 1
        return isinstance(call.func, ast.Attribute) and len(call.args) <= places
    mode = next((k.value for k in call.keywords if k.arg == "mode"), None)
    first = 0 if isinstance(call.func, ast.Attribute) and name == "open" else 1
    if mode is None and len(call.args) > first:
        mode = call.args[first]
    if not isinstance(call.func, ast.Attribute) and name == "open" and not call.args:
        return False
    told = isinstance(mode, ast.Constant) and isinstance(mode.value, str)
    if isinstance(call.func, ast.Attribute) and name == "open" and not told:
        return False  # a method of something else that opens
    return not (told and "b" in mode.value)


@pytest.mark.parametrize(
    "source",
    [
        "import fcntl",
        "import os\nos.fork()",
        "from os import getuid",
        "import sys\nif sys.platform == 'win32': pass",
        "import subprocess\nsubprocess.Popen([], preexec_fn=print)",
        "p.read_text()",
        "p.write_text('a')",
        "open('a')",
        "p.open('w')",
        "import subprocess\nsubprocess.run([], text=True)",
        "f = '/proc/self/stat'",
    ],
)
def test_such_a_call_would_be_found(source: str) -> None:
    assert _faults(source)


@pytest.mark.parametrize(
    "source",
    [
        "p.read_text('utf-8')",
        "p.write_text('a', encoding='utf-8')",
        "open('a', 'rb')",
        "p.open('w', encoding='utf-8', newline='')",
        "text.replace('a', 'b')",
        "import os\nos.environ.get('A')",
    ],
)
def test_what_every_system_knows_is_let_through(source: str) -> None:
    assert not _faults(source)


@pytest.mark.parametrize("package", PACKAGES)
def test_only_one_package_knows_which_system_it_runs_on(package: str) -> None:
    found = [
        f"{path.relative_to(ROOT)}:{fault}"
        for path in sorted((ROOT / package).rglob("*.py"))
        if HOME not in path.parents
        for fault in _faults(path.read_text(encoding="utf-8"))
    ]
    assert found == [], "move it to nesting/system, with the way of each system"
