"""Boxes: pull and junction boxes by their raceways, device boxes by what is in them."""
