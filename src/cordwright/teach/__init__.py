"""Teaching a piece: the lesson as data, told in words, and everything that is printed from it."""
