"""Strip tests go in; constants of a sheet, its tight direction, and how a backed upper holds come out."""
