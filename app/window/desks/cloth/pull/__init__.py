"""The pull over the upper: maps of its cases side by side, their figures, and where backing may peel."""
