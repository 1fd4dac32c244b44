"""The judge of every lay: true outlines, double precision, no engine's code.

A lay or a lay.json goes in, a verdict with its faults comes out. Nothing leaves the program without one.
"""

from nesting.verify.judge import Verdict, verify, verify_document, words

__all__ = ["Verdict", "verify", "verify_document", "words"]
