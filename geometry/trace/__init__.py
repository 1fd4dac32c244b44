"""A picture of card patterns goes in, their outlines in mm and how sure they are come out.

``sheet`` says where the printed markers lie, ``camera`` finds them and undoes perspective and lens,
``cards`` tells card from paper and follows its edge to a fraction of a pixel, ``outline`` keeps corners and
smooths the rest, ``read`` does it all; ``flat`` is the picture laid flat, ``correct`` bends an outline by
hand. OpenCV does the image processing and is loaded only when a picture is traced.
"""
