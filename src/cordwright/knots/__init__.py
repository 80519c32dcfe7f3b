"""Knots drawn once and tightened as real cord."""
