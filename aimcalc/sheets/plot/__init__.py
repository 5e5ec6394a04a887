"""The light plot: a plan to scale with its symbols, tags, elevations and blocks, as PDF, SVG and DXF."""
