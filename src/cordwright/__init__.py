"""Cordwright: knotted cord work, computed from knots that are really tightened."""

__version__ = "0.1.0"
