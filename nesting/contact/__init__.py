"""Two outlines go in, where they touch or overlap comes out: no-fit regions, rasters, slides."""
