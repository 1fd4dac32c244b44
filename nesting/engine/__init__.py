"""A problem, a seed and a stop go in, the best verified lay out: ``solve``, or ``child`` in a process."""
