"""Code compiled before an update: kept while no kernel has changed, forgotten when one has."""

from __future__ import annotations

from pathlib import Path

import pytest

from nesting.contact.kept_code import forget_changed

KERNEL = "from numba import njit\n@njit(cache=True)\ndef depth():\n    return {}\n"


@pytest.fixture
def package(tmp_path: Path) -> Path:
    """A package with a kernel, a kernel that calls it, and a module that compiles nothing."""
    sources = {"depth": KERNEL.format(1), "search": KERNEL.format("depth()"), "words": "A = 1\n"}
    (tmp_path / "part").mkdir()
    for name, text in sources.items():
        (tmp_path / "part" / f"{name}.py").write_text(text)
    forget_changed(tmp_path)
    return tmp_path


def kept(package: Path) -> Path:
    """Compiled code of the kernel that calls the other."""
    folder = package / "part" / "__pycache__"
    folder.mkdir(exist_ok=True)
    code = folder / "search.search-3.py311.nbi"
    code.write_text("compiled")
    return code


def test_compiled_code_stays_while_the_kernels_do(package: Path) -> None:
    code = kept(package)
    (package / "part" / "words.py").write_text("A = 2\n")
    forget_changed(package)
    assert code.exists()


def test_a_changed_kernel_takes_the_code_of_those_that_call_it_along(package: Path) -> None:
    code = kept(package)
    (package / "part" / "depth.py").write_text(KERNEL.format(2))
    forget_changed(package)
    assert not code.exists()
    code = kept(package)
    forget_changed(package)
    assert code.exists()


def test_code_of_which_nobody_knows_what_it_was_compiled_from_is_forgotten(package: Path) -> None:
    code = kept(package)
    (package / "__pycache__" / "kernels.stamp").unlink()
    forget_changed(package)
    assert not code.exists()


def test_nothing_is_done_where_nothing_can_be_written(package: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object, **__: object) -> None:
        raise PermissionError("read-only")

    code = kept(package)
    (package / "part" / "depth.py").write_text(KERNEL.format(3))
    monkeypatch.setattr(Path, "unlink", refused)
    forget_changed(package)
    assert code.exists()


def test_a_source_that_vanishes_meanwhile_stops_no_start(
    package: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def gone(path: Path) -> bytes:
        raise FileNotFoundError(path)

    code = kept(package)
    monkeypatch.setattr(Path, "read_bytes", gone)
    forget_changed(package)
    assert code.exists()
