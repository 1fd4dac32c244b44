"""Compiled code that is kept from before is forgotten when a kernel has changed since.

numba keeps what it compiles beside the sources, and compiles a function again when its own module has
changed. It does not when a kernel of another module, which is compiled into it, has: after an update the two
would read one table in two ways.
"""

from __future__ import annotations

import hashlib
from pathlib import Path

STAMP = "kernels.stamp"


def forget_changed(package: Path) -> None:
    """Remove the compiled code below ``package`` if a module of it that compiles is not what it was.

    Where nothing can be written numba keeps nothing either, and nothing is done; nor while the sources are
    being replaced, where one of them may be gone before it is read: the next start does it.
    """
    digest = hashlib.sha256()
    stamp = package / "__pycache__" / STAMP
    try:
        for path in sorted(package.rglob("*.py")):
            source = path.read_bytes()
            if b"njit" in source:
                digest.update(path.relative_to(package).as_posix().encode() + b"\0" + source + b"\0")
        if stamp.exists() and stamp.read_text(encoding="ascii") == digest.hexdigest():
            return
        for kept in package.rglob("__pycache__/*.nb[ic]"):
            kept.unlink(missing_ok=True)
        stamp.parent.mkdir(exist_ok=True)
        stamp.write_text(digest.hexdigest(), encoding="ascii")
    except OSError:
        return
