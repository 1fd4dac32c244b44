"""A Python in which no display library can be imported, whatever is installed."""

NO_QT = """
import sys
class NoQt:
    def find_spec(self, name, path=None, target=None):
        if name.split('.')[0] in ('PySide6', 'shiboken6'):
            raise ImportError('no Qt here: ' + name)
sys.meta_path.insert(0, NoQt())
"""
"""Put before what is to be run."""
