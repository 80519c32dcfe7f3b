"""The worked piece: every strand's course, every length, the cut list."""
