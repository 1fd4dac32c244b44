"""The pattern maker's desk: mark edges, see the backing follow, set the pull axis."""
