"""Conductors: ampacity, overcurrent device, equipment ground, neutral and voltage drop of circuits, feeders and services."""
