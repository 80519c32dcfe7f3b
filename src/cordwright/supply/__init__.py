"""The cord shelf, cutting plans, kits and prices."""
