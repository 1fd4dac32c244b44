"""Upper pieces and their backing, in millimetres, y up, without any notion of a roll.

The flow, one module a step:

``dxf_*``      a drawing -> drawn pieces and findings
``edges``      outlines broken at corners and turn points; kinds suggested, later confirmed
``backing``    upper piece -> backing piece, inset edge by edge
``pull``       the heel-to-toe axis of a piece: proposed, confirmed, mirrored
``sizes``      size systems and restricted grading
``sheet``      how an orthotropic sheet, or two glued together, gives under a pull
"""
