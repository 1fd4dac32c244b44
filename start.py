#!/usr/bin/env python3
"""Set up and start, with nothing but Python:

    python3 start.py               set up and open the window; the first time, or where there is no
                                   screen, the whole job on the demo style is done before
    python3 start.py shortcut      an entry in the desktop's menu, style files by double click
    python3 start.py test [...]    set up and run the tests (arguments go to pytest)
    python3 start.py COMMAND ...   set up and run one command (``--help`` lists them)

Standard library only. What is needed goes into ``.venv`` beside this file, from the locked list
with its hashes, and nowhere else. (On Windows: ``py start.py``.)
"""

import os
import sys

if sys.version_info < (3, 11):  # before anything that an old Python would trip over
    sys.stderr.write(
        "stayply needs Python 3.11 or newer, this is %d.%d; install one from your system's packages "
        "or python.org and run: python3.11 start.py\n" % sys.version_info[:2]
    )
    sys.exit(2)

import ctypes
import hashlib
import importlib.util
import shlex
import shutil
import subprocess
from pathlib import Path

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
WINDOWS = os.name == "nt"
BIN = VENV / ("Scripts" if WINDOWS else "bin")
PYTHON = BIN / ("python.exe" if WINDOWS else "python")
LOG = VENV / "setup.log"
DEMO_OUT = ROOT / "out"

# Debian package -> the library whose absence shows that it is missing.
QT_LIBRARIES = {
    "libglib2.0-0": "libglib-2.0.so.0",
    "libgl1": "libGL.so.1",
    "libegl1": "libEGL.so.1",
    "libxkbcommon0": "libxkbcommon.so.0",
    "libdbus-1-3": "libdbus-1.so.3",
    "libfontconfig1": "libfontconfig.so.1",
}
X11_LIBRARIES = {
    "libxcb-cursor0": "libxcb-cursor.so.0",
    "libxkbcommon-x11-0": "libxkbcommon-x11.so.0",
    "libxcb-icccm4": "libxcb-icccm.so.4",
    "libxcb-keysyms1": "libxcb-keysyms.so.1",
    "libxcb-shape0": "libxcb-shape.so.0",
}


def say(text: str) -> None:
    """Tell the person something; standard output stays free for results."""
    print(text, file=sys.stderr, flush=True)


def give_up(text: str) -> None:
    """End with one line that says what is wrong and what to do."""
    say("start.py: " + text)
    sys.exit(2)


def main(words: list[str]) -> int:
    """Set up as far as needed, then do what was asked; returns the exit status."""
    if words[:1] == ["test"]:
        set_up("requirements-dev.lock")
        provide_libraries({**QT_LIBRARIES, **X11_LIBRARIES}, "the tests of the window")
        provide_display()
        os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
        os.chdir(ROOT)
        # a file of tests to each processor at a time, in their order (else the small files that take longest
        # come last, one processor idle); one that dies is a failed test at once (replaced, the others would
        # wait for it for ever)
        spread = ["-n", "logical", "--dist", "loadfile", "--no-loadscope-reorder", "--max-worker-restart=0"]
        return run(["-m", "pytest", *spread, *words[1:]])
    set_up("requirements.lock")
    os.environ["PYTHONSAFEPATH"] = "1"  # what lies in the folder we are called from is no part of us
    if words:
        if words[0] == "window":
            provide_libraries({**QT_LIBRARIES, **X11_LIBRARIES}, "the window")
        return run(["-m", "app", *words])
    seen = has_window() and has_screen()
    if seen and demo_style():  # the demo was done before: straight to the work of the day
        provide_libraries({**QT_LIBRARIES, **X11_LIBRARIES}, "the window")
        return run(["-m", "app", "window"])
    status = subprocess.call([str(PYTHON), "-m", "app", "demo", "--out", str(DEMO_OUT)])
    if status == 0 and seen:
        if provide_libraries({**QT_LIBRARIES, **X11_LIBRARIES}, "the window"):
            say("Opening the window on the demo style.")
            return run(["-m", "app", "window", *demo_style()])
    elif status == 0 and has_window():
        say("No screen here, so the window stays closed; every command works without one.")
    return status


def run(arguments: list[str]) -> int:
    """Run the project's Python in our place."""
    command = [str(PYTHON), *arguments]
    if not WINDOWS:
        sys.stdout.flush()
        os.execv(command[0], command)
    try:
        return subprocess.call(command)
    except KeyboardInterrupt:
        return 1


def has_window() -> bool:
    """Whether this copy of the program has its window."""
    return (ROOT / "app" / "commands" / "window.py").exists()


def has_screen() -> bool:
    """Whether a window could be shown."""
    if WINDOWS or sys.platform == "darwin":
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def demo_style() -> list[str]:
    """The style file that the demo wrote, as an argument for the window."""
    return [str(path) for path in sorted(DEMO_OUT.glob("*.style.json"))[:1]]


def set_up(lock_name: str) -> None:
    """Make ``.venv`` hold what ``lock_name`` says; costs next to nothing when it does already."""
    wanted = stamp_of(lock_name)
    stamp = VENV / f"{lock_name}.stamp"
    if PYTHON.exists() and read(stamp) == wanted:
        return
    unfinished = VENV / "unfinished.stamp"
    if unfinished.exists() or not environment_works():
        make_environment()
    say(f"Setting up {VENV} (once; a few hundred MB are fetched) ...")
    unfinished.write_text(lock_name, encoding="utf-8")  # stays only when this is killed half-way:
    try:  # pip takes a library whose files came only in part for an installed one
        install(ROOT / lock_name)
    except SystemExit:
        unfinished.unlink()  # pip gave up by itself and left whole libraries
        raise
    link_project()
    compile_engine()
    (VENV / "python.stamp").write_text(sys.version, encoding="utf-8")
    stamp.write_text(wanted, encoding="utf-8")
    if lock_name == "requirements-dev.lock":  # the smaller list is part of it
        (VENV / "requirements.lock.stamp").write_text(stamp_of("requirements.lock"), encoding="utf-8")
    unfinished.unlink()


def environment_works() -> bool:
    """Whether there is an environment of this Python with a pip that answers; one cut short has none."""
    if not PYTHON.exists() or read(VENV / "python.stamp") not in ("", sys.version):
        return False
    try:
        return (
            subprocess.run(
                [str(PYTHON), "-m", "pip", "--version"], capture_output=True, check=False
            ).returncode
            == 0
        )
    except OSError:
        return False


def compile_engine() -> None:
    """Compile the engine's inner loops; what is not compiled now is compiled on first use."""
    say("Compiling the engine's inner loops (once) ...")
    command = [str(PYTHON), "-m", "nesting.engine.compile_kernels"]
    subprocess.run(command, cwd=ROOT, capture_output=True, check=False)


def stamp_of(lock_name: str) -> str:
    """What was installed: another lock or another Python means installing again."""
    return hashlib.sha256(
        (ROOT / lock_name).read_bytes() + sys.version.encode() + str(ROOT).encode()
    ).hexdigest()


def read(path: Path) -> str:
    """The text of a small file, '' when there is none."""
    try:
        return path.read_text(encoding="utf-8")
    except OSError:
        return ""


def make_environment() -> None:
    """Make an empty ``.venv``; a half-made one is removed."""
    if importlib.util.find_spec("ensurepip") is None:
        version = f"python3.{sys.version_info[1]}-venv"
        names = ["python3-venv"] if shutil.which("dpkg") else [version]
        if not apt_install(names, "making the environment .venv"):
            give_up(f"this Python cannot make environments; run: sudo {apt_line(names)}")
        importlib.invalidate_caches()
    shutil.rmtree(VENV, ignore_errors=True)
    result = subprocess.run(
        [sys.executable, "-m", "venv", str(VENV)], capture_output=True, text=True, check=False
    )
    if result.returncode != 0 or not PYTHON.exists():
        shutil.rmtree(VENV, ignore_errors=True)
        reason = " ".join((result.stdout + result.stderr).split())[-300:]
        give_up(f"could not make {VENV} ({reason}); is the disk full or the folder read-only?")


def install(lock: Path) -> None:
    """Install the locked set with pip; ends the program with one line when that fails."""
    command = [
        str(PYTHON), "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--retries", "2",
        "--require-hashes", "--only-binary", ":all:", "-r", str(lock),
    ]  # fmt: skip
    result = subprocess.run(command, capture_output=True, text=True, check=False)
    if result.returncode == 0:
        return
    output = result.stdout + result.stderr
    if "No space left" in output or "Errno 28" in output:
        give_up(f"the disk is full: the libraries take about 1 GB in {VENV}; make room and run it again")
    try:
        LOG.write_text(output, encoding="utf-8")
    except OSError:  # then pip's own words are worth more on the screen
        say(output)
    if "DO NOT MATCH THE HASHES" in output:
        give_up(f"a library fetched is not the one {lock.name} names; nothing was installed (see {LOG})")
    if any(word in output for word in ("Retrying", "onnection", "ProxyError", "resolve", "SSLError")):
        give_up(f"the libraries could not be fetched: no network? Try again once connected (see {LOG})")
    if "No matching distribution" in output:
        give_up(
            f"a library of {lock.name} is not made for this system and Python "
            f"{sys.version_info[0]}.{sys.version_info[1]}; try another Python from 3.11 on (see {LOG})"
        )
    give_up(f"the libraries could not be installed; pip's own words are in {LOG}")


def link_project() -> None:
    """Make the packages of this folder importable and ``stayply`` callable in ``.venv``."""
    packages = next(VENV.glob("lib/python3*/site-packages"), VENV / "Lib" / "site-packages")
    # a line of code and not the bare folder: Python before 3.13 reads this file by the system's code page, in
    # which a folder's letters may not exist; as escapes they are plain ASCII everywhere
    place = ascii(str(ROOT))
    line = f"import sys; {place} in sys.path or sys.path.append({place})\n"
    (packages / "stayply.pth").write_text(line, encoding="ascii")
    if WINDOWS:
        (BIN / "stayply.cmd").write_text(
            '@set PYTHONSAFEPATH=1\r\n@"%~dp0python.exe" -m app %*\r\n', encoding="ascii"
        )
        return
    script = BIN / "stayply"
    script.write_text(
        f'#!/bin/sh\nexport PYTHONSAFEPATH=1\nexec {shlex.quote(str(PYTHON))} -m app "$@"\n', encoding="utf-8"
    )
    script.chmod(0o755)


def provide_libraries(libraries: dict[str, str], purpose: str) -> bool:
    """See that the system libraries are there, installing them as root on Debian and Ubuntu."""
    if not sys.platform.startswith("linux"):
        return True
    missing = [package for package, library in libraries.items() if not loads(library)]
    if not missing:
        return True
    if apt_install(missing, purpose):
        return True
    if shutil.which("apt-get"):
        say(f"For {purpose} the system lacks {', '.join(missing)}; run: sudo {apt_line(missing)}")
    else:
        say(f"For {purpose} the system lacks {', '.join(libraries[name] for name in missing)}; install them")
    return False


def provide_display() -> None:
    """Install a virtual display when we may; without one the tests on a real platform are skipped."""
    if sys.platform.startswith("linux") and not shutil.which("Xvfb"):
        apt_install(["xvfb", "xauth"], "the tests of the window on a virtual display")


def loads(library: str) -> bool:
    """Whether the system finds a shared library."""
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True


def apt_line(packages: list[str]) -> str:
    """The command a person can run."""
    return "apt-get install -y --no-install-recommends " + " ".join(packages)


def apt_install(packages: list[str], purpose: str) -> bool:
    """Install Debian packages when we may (root on Debian or Ubuntu), saying which first."""
    if WINDOWS or not shutil.which("apt-get") or os.geteuid() != 0:
        return False
    say(f"Installing system packages for {purpose}: {' '.join(packages)}")
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for command in ("apt-get update", apt_line(packages)):
        result = subprocess.run(command.split(), capture_output=True, env=environment, check=False)
    return result.returncode == 0


def start(words: list[str]) -> int:
    """``main``, with one line for what stops it half-way; a set-up cut short is made good next time."""
    try:
        return main(words)
    except KeyboardInterrupt:
        say("start.py: stopped; run it again to go on")
        return 1
    except OSError as error:
        what = f"{error.filename or ROOT}: {error.strerror or error}"
        say(f"start.py: {what}; is the disk full or the folder read-only?")
        return 2


if __name__ == "__main__":
    sys.exit(start(sys.argv[1:]))
