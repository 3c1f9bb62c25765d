"""Framing: holes and notches in sawn members, and ways around members that must not be bored."""
