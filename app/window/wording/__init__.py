"""The words of the window, and those of geometry and nesting in its language."""
