"""The exact solution of a radial single-phase three-wire network: L1, L2 and neutral, any number of loads of constant power.

`tree` lays the network out, `flow` finds its voltages, `faults` the fault currents at every node at once; they work on whole
arrays and are not told. `voltage` tells what they found, one feeder at a time, by Kirchhoff's laws.
"""
