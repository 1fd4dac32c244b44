"""Printing: the same papers as the commands write, painted on a printer or kept as PDF."""
