"""Load calculations: what conductors must carry by code, and, apart from it, what is expected to flow.

A module per method. `records` holds what goes in and what comes out; every method takes such records and an edition.
"""
