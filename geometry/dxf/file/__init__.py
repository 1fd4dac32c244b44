"""The bytes of a drawing go in, a DXF document and every repair made to it come out (``load``)."""
