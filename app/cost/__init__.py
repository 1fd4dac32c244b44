"""A style and an order go in, fabric per pair and its cost come out (``per_pair``), compared."""
