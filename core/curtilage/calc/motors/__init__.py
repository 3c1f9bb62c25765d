"""Motors: what their circuits ask for, and what the voltage does while they start."""
