"""How a piece hangs: its shape in space, what it holds, and what its cords carry."""
