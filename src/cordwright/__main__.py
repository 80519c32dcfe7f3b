"""``python -m cordwright``: the command line."""

import sys

from cordwright.cli import main

if __name__ == "__main__":
    sys.exit(main())
