"""What differs by system, and only that: Linux, macOS and Windows each in its own way, here and nowhere else.

``files``: taking a file's place, locks, names and long paths. ``drives``: network drives. ``processes``:
Ctrl-C, groups, how a process ended. ``screen``: whether a window can be shown. A contract test keeps the
calls that only one system knows out of every other module.
"""

import os
import sys

WINDOWS = os.name == "nt"
MAC = sys.platform == "darwin"
