"""A problem goes in, a free arrangement comes out: first layout, general solver, sections that repeat."""
