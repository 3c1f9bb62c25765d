"""Power during construction: its load by season, the drop to the working face, the generator if the utility is late."""
