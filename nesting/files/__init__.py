"""Open instances, lay.json and the lines between processes, read and written."""
