"""Card patterns from a picture: a photograph or scan becomes pieces, checked by eye."""
