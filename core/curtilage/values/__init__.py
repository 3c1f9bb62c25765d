"""Numbers that can say where they came from, and the methods that make them."""
