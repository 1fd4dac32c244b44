"""Upper pieces and their backing, in millimetres, y up, without any notion of a roll.

The packages in the order of the work:

``dxf``, ``trace``      a drawing, or a picture of cards -> drawn pieces and findings
``backing``             outlines broken into edges; upper piece -> backing piece, inset edge by edge
``pull``, ``mirror``    the heel-to-toe axis of a piece: proposed, confirmed; the other hand
``drawn``               what a person drew on a piece, in every size
``sizing``              size systems and restricted grading
``symmetry``            half patterns and twins
``checks``              drafting mistakes, as findings
``stretch``             how an orthotropic sheet, or several glued together, gives under a pull
"""
