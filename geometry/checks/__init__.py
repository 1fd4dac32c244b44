"""Uppers and backings go in, drafting mistakes come out as findings: of one piece, of a set of pieces."""
