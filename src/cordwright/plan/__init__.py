"""The plan: its model, its sums and sizes, reading and writing it, and its errors."""
