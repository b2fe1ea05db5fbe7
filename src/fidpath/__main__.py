"""`python -m fidpath`."""

import sys

from fidpath.cli.main import main

if __name__ == "__main__":
    sys.exit(main())
