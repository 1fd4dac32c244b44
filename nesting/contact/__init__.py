"""Two outlines go in, where they touch or overlap comes out: no-fit regions, rasters, slides."""

from pathlib import Path

from nesting.contact.kept_code import forget_changed

forget_changed(Path(__file__).parent.parent)  # before a kernel is read: each calls one of this package
