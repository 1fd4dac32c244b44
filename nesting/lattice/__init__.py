"""One or two outlines go in, their densest lattices come out, and the bands of a roll cut from them."""
