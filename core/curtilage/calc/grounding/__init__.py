"""Grounding and bonding: electrodes and their conductors, bonding jumpers, resistance to earth, bonds of the neutral."""
