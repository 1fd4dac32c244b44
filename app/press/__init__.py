"""A style and an order go in, dies, strokes, rows and stacks for a press cutter come out (``job``)."""
