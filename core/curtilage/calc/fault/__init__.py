"""Fault currents of a single-phase three-wire system: source, transformer, wires, nodes, and whether devices clear them."""
