"""``python -m app.defaults`` prints docs/defaults.md."""

import sys

from app.defaults.page import page

sys.stdout.write(page())
