"""Does every locked library exist as a wheel for each system and Python that README promises?

    PYTHONPATH=. .venv/bin/python tests/benchmarks/wheels_for_all.py [--lock requirements.lock] [--json]

Asks the index that pip is set up for on this machine, by pip itself and for the locked versions only, without
installing anything; a wheel counts when its hash stands in the lock. Without a network it says so and ends
with 0: nothing was found wrong. Status 1: a wheel is missing.
"""

from __future__ import annotations

import argparse
import json
import re
import subprocess
import sys
import tempfile
from dataclasses import dataclass, field
from pathlib import Path

from pip._vendor.packaging.markers import Marker

ROOT = Path(__file__).parents[2]
PYTHONS = ("3.11", "3.12", "3.13")
SYSTEMS = {
    "Linux x86-64": [*(f"manylinux_2_{n}_x86_64" for n in range(34, 16, -1)), "manylinux2014_x86_64"],
    "Windows x86-64": ["win_amd64"],
    "macOS Apple": [f"macosx_{n}_0_arm64" for n in range(15, 10, -1)],
    "macOS Intel": [*(f"macosx_{n}_0_x86_64" for n in range(15, 10, -1)), "macosx_10_15_x86_64"],
}
MARKED = {
    "Linux": ("linux", "Linux", "posix"),
    "Windows": ("win32", "Windows", "nt"),
    "macOS": ("darwin", "Darwin", "posix"),
}
NO_NETWORK = (
    "NewConnectionError",
    "onnection refused",
    "resolve",
    "Retrying",
    "timed out",
    "unreachable",
    "ProxyError",
)


@dataclass
class Locked:
    """One line of the lock: a library, its version, where it is wanted, the hashes that may come."""

    name: str
    version: str
    marker: str
    hashes: set[str] = field(default_factory=set)

    def wanted(self, system: str, python: str) -> bool:
        """Whether it is installed there."""
        platform, name, os_name = MARKED[system.split()[0]]
        machine = "arm64" if "Apple" in system else "AMD64" if "Windows" in system else "x86_64"
        return not self.marker or Marker(self.marker).evaluate(
            {
                "sys_platform": platform,
                "platform_system": name,
                "os_name": os_name,
                "platform_machine": machine,
                "python_version": python,
                "python_full_version": f"{python}.0",
                "implementation_name": "cpython",
                "platform_python_implementation": "CPython",
            }
        )


def read_lock(path: Path) -> list[Locked]:
    """Return what a lock file names."""
    found: list[Locked] = []
    for line in path.read_text(encoding="utf-8").splitlines():
        head = re.match(r"^([A-Za-z0-9._-]+)==([^ ;\\]+)(?: *; *([^\\]+?))? *\\?$", line)
        if head:
            found.append(Locked(head[1], head[2], (head[3] or "").strip()))
        for digest in re.findall(r"--hash=sha256:([0-9a-f]{64})", line):
            found[-1].hashes.add(digest)
    return found


def ask(wanted: list[Locked], system: str, python: str) -> tuple[dict[str, str], str]:
    """Return {name: sha256} of the wheels pip would take, and its words where it takes none."""
    with tempfile.TemporaryDirectory() as folder:
        report = Path(folder) / "report.json"
        command = [
            sys.executable, "-m", "pip", "install", "--dry-run", "--ignore-installed", "--no-deps", "--quiet",
            "--ignore-requires-python", "--disable-pip-version-check", "--retries", "1", "--timeout", "20",
            "--only-binary", ":all:",
            "--python-version", python, "--implementation", "cp", "--target", folder, "--report", str(report),
            *(word for tag in SYSTEMS[system] for word in ("--platform", tag)),
            *(f"{each.name}=={each.version}" for each in wanted),
        ]  # fmt: skip
        result = subprocess.run(command, capture_output=True, text=True, encoding="utf-8", check=False)
        if result.returncode != 0:
            return {}, result.stderr
        told = json.loads(report.read_text(encoding="utf-8"))
    return {
        re.sub(r"[-_.]+", "-", item["metadata"]["name"]).lower(): item["download_info"]["archive_info"][
            "hashes"
        ]["sha256"]
        for item in told["install"]
    }, ""


def missing_of(wanted: list[Locked], system: str, python: str) -> list[str] | None:
    """Return what has no locked wheel there; None where the index cannot be reached."""
    got, words = ask(wanted, system, python)
    if not got:
        if "No matching distribution" not in words:
            if any(word in words for word in NO_NETWORK):
                return None
            raise SystemExit(f"pip could not be asked: {words.strip()[-400:]}")
        if len(wanted) == 1:
            return [f"{wanted[0].name} {wanted[0].version}: no wheel"]
        half = len(wanted) // 2  # which one: asked in halves
        parts = [missing_of(part, system, python) for part in (wanted[:half], wanted[half:])]
        return None if None in parts else [each for part in parts for each in part or ()]
    faults = []
    for each in wanted:
        digest = got.get(re.sub(r"[-_.]+", "-", each.name).lower())
        if digest is None or digest not in each.hashes:
            faults.append(f"{each.name} {each.version}: the wheel offered is not in the lock")
    return faults


def main() -> int:
    """Ask for each system and Python; returns 1 when a wheel is missing."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--lock", type=Path, default=ROOT / "requirements.lock")
    parser.add_argument("--json", action="store_true")
    args = parser.parse_args()
    locked = read_lock(args.lock)
    table: dict[str, dict[str, list[str]]] = {}
    for system in SYSTEMS:
        for python in PYTHONS:
            wanted = [each for each in locked if each.wanted(system, python)]
            faults = missing_of(wanted, system, python)
            if faults is None:
                print("no network: nothing was checked")
                return 0
            table.setdefault(system, {})[python] = faults
            if not args.json:
                print(
                    f"{system}, Python {python}: {len(wanted)} libraries, {'; '.join(faults) or 'all there'}",
                    flush=True,
                )
    if args.json:
        print(json.dumps(table))
    return int(any(faults for row in table.values() for faults in row.values()))


if __name__ == "__main__":
    raise SystemExit(main())
