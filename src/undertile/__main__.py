"""``python -m undertile``: the same as the command ``undertile``."""

import sys

from undertile.cli import main

if __name__ == "__main__":
    sys.exit(main())
