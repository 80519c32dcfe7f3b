"""Measures as people write them; inside, millimetres, newtons and grams."""
