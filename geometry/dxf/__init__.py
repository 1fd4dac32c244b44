"""A drawing goes in, drawn pieces in mm and findings come out: ``read`` is the one way in.

``file`` turns bytes into a document, ``lines`` turns what is drawn into closed rings; here they become
pieces, freely drawn (``pieces``) or by the layer scheme of ASTM D6673-10 (``layer_scheme``).
"""
