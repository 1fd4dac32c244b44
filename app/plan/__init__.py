"""Styles and an order go in, a judged run plan with its files comes out (``job``, ``report``)."""
