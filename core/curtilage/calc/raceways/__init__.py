"""Raceways: what lies in them, how full they are, how deep they lie, and what runs in a trench."""
