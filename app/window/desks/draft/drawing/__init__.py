"""Drawing on the draft board: its actions, the strip of figures, the line under way, and what was drawn."""
