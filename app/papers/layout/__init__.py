"""What stands where on a sheet: frames, blocks, tables, tiles, room for lettering, signs, pens."""
