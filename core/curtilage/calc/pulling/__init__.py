"""Pulling conductors into a raceway: weight, tension along the way, pressure in the bends."""
