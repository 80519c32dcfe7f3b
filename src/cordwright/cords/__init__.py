"""Fibres, cords and how they behave in the hand."""
