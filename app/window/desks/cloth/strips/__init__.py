"""The page of stretch tests: strips pulled go in, the fitted sheet and its tight direction are shown."""
