"""The pinned display library keeps its references: some releases abort after some thousand calls."""

from __future__ import annotations

import subprocess
import sys


def test_two_hundred_thousand_calls_that_return_nothing() -> None:
    """PySide6 6.12 loses a reference to None at each such call on Python 3.10 and 3.11 and aborts
    after about 6,000; run apart, so that an abort is a failure and not the end of the tests."""
    code = (
        "from PySide6.QtGui import QPainterPath\n"
        "path = QPainterPath()\n"
        "for i in range(1, 200_001):\n"
        "    path.lineTo(i, i)\n"
        "print(path.elementCount())\n"
    )
    result = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert result.returncode == 0, result.stderr
    assert int(result.stdout) == 200_001
