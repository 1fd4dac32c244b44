"""A style goes in, whether its backing holds the pull of lasting comes out: by piece, by chain, on a lay."""
