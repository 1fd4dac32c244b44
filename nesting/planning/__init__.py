"""An order goes in; the lays and plies that meet it, rolls, splices and the fabric of a pair come out."""
