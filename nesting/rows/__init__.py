"""A long run goes in, bands of lattice rows set along the roll come out (``production``; ``one_die``)."""
