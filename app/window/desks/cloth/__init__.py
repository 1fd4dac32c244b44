"""The cloth desk: the cloths of the style, each on its roll with its tight direction and flaws."""
