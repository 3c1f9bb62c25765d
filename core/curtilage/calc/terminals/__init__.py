"""Terminals: what they take, and the space to bend a conductor into them."""
