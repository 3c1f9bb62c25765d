"""Colour, type, marks and components: one language for notebooks, the report and drawings."""
