"""The drawing board: millimetres, y up. ``view`` zoom, pan and pointer; ``paths`` outlines to
painter paths; ``rulers`` the rulers and the scale bar."""
