"""Pictures that several papers share: pieces, overlays, lays, press rows, plots."""
