"""Pictures: knot figures, charts, the whole piece, scenes; all computed, none drawn by hand."""
