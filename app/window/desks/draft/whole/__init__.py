"""Whole pieces on the draft desk: half patterns, twins, pieces added, the size run, measures."""
