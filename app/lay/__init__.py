"""A style and pairs per size go in, the question for the engine and a judged lay come out (``job``)."""
