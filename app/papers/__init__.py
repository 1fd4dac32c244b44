"""The papers of the job, one module per paper, and the writers they share.

A paper is drawn once, in mm, on a ``drawing.Drawing`` that knows no file format; ``pdf``, ``dxf``,
``hpgl`` and ``svg`` render it. No module here needs a display library.
"""
