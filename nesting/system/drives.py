"""Whether a folder lies on a network drive, told by each system in its own way."""

from __future__ import annotations

import ctypes
import subprocess
from pathlib import Path

from nesting import system

NETWORK_KINDS = (
    "nfs", "cifs", "smb", "afs", "9p", "ncpfs", "webdav", "davfs", "afpfs", "fuse.sshfs", "fuse.glusterfs",
    "fuse.rclone", "ceph", "lustre", "gpfs", "beegfs", "vboxsf", "vmhgfs", "virtiofs", "prl_fs",
)  # fmt: skip
"""File systems whose files lie on another machine (or on the host of a virtual one), as mount tables name
them, a version after the name left off (nfs4, smb3, smbfs). From memory, of the systems' own manuals."""

DRIVE_REMOTE = 4
"""What Windows' GetDriveTypeW answers for a network drive (its own documentation)."""


def is_network(path: Path) -> bool:
    """Whether the file or folder lies on a network drive; False where the system does not tell."""
    path = path.resolve()
    if system.WINDOWS:
        return _is_network_drive(path)
    kind = kind_at(path, _mounts())
    return kind.startswith(NETWORK_KINDS)


def kind_at(path: Path, mounts: list[tuple[str, str]]) -> str:
    """Return the kind of file system that holds ``path``, '' when no mount does.

    ``mounts`` are (folder, kind) in the order they were mounted: the longest folder that holds the path
    wins, of equal ones the last.
    """
    best, found = -1, ""
    for folder, kind in mounts:
        if path.is_relative_to(folder) and len(folder) >= best:
            best, found = len(folder), kind.lower()
    return found


def mounts_of_linux(table: str) -> list[tuple[str, str]]:
    """Read /proc/self/mountinfo (proc(5)): the folder is its fifth word, the kind follows the lone dash."""
    found = []
    for line in table.splitlines():
        words, _, rest = line.partition(" - ")
        if len(words.split()) >= 5 and rest:
            folder = words.split()[4]
            for code, sign in (("\\040", " "), ("\\011", "\t"), ("\\012", "\n"), ("\\134", "\\")):
                folder = folder.replace(code, sign)
            found.append((folder, rest.split()[0]))
    return found


def mounts_of_mac(listing: str) -> list[tuple[str, str]]:
    """Read what ``mount`` prints on macOS: ``//me@host/share on /Volumes/share (smbfs, nodev)``."""
    found = []
    for line in listing.splitlines():
        left, _, options = line.rpartition(" (")
        _, _, folder = left.partition(" on ")
        if folder:
            found.append((folder, options.split(",")[0].rstrip(")")))
    return found


def _mounts() -> list[tuple[str, str]]:
    try:
        if system.MAC:
            asked = subprocess.run(["/sbin/mount"], capture_output=True, check=False)
            return mounts_of_mac(asked.stdout.decode("utf-8", "replace"))
        return mounts_of_linux(Path("/proc/self/mountinfo").read_text(encoding="utf-8", errors="replace"))
    except OSError:
        return []


def _is_network_drive(path: Path) -> bool:
    drive = path.drive
    if drive.startswith("\\\\"):
        return True
    library = getattr(ctypes, "windll", None)
    return library is not None and library.kernel32.GetDriveTypeW(f"{drive}\\") == DRIVE_REMOTE
