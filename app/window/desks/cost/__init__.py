"""The cost desk: fabric per pair and its cost, by size and by roll width; the run plan."""
