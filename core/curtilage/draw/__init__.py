"""Drawings as text: design in, SVG out, the same bytes each time. Nothing is computed here but places on the sheet."""
