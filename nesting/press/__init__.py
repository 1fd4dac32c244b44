"""Dies go in, rows and stacks that a press cutter can set out come out, in tenths of a mm."""
