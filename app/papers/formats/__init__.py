"""A drawing that knows no format, and its writers: PDF, DXF, HP-GL, SVG; tables for a spreadsheet."""
