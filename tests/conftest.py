"""Property tests draw the same examples in every CI run, on a desk they search on; none knows the clock."""

import os

import pytest
from hypothesis import settings

settings.register_profile("ci", derandomize=True, deadline=None)
settings.register_profile("desk", deadline=None)
settings.load_profile("ci" if os.environ.get("CI") else "desk")


@pytest.fixture(autouse=True)
def workshop(tmp_path_factory, monkeypatch):
    """A workshop of each test's own: no test finds the lays or records of another, or of this machine."""
    monkeypatch.setenv("STAYPLY_DATA_DIR", str(tmp_path_factory.mktemp("workshop")))
