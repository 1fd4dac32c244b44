"""A lay goes in, a shorter one comes out: linear programs on true outlines, windows, reinsertion."""
