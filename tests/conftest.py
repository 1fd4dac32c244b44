"""Property tests draw the same examples in every CI run; on a desk they go on searching."""

import os

from hypothesis import settings

settings.register_profile("ci", derandomize=True)
if os.environ.get("CI"):
    settings.load_profile("ci")
