"""A base size goes in, the other sizes come out: last measures by system, restricted grading."""
