"""The utility's side and the places of equipment: flicker, candidates, metering, distances, working space, arrangements."""
