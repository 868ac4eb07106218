"""Choose: the window, or one headless command."""

import sys


def main() -> int:
    """Start what the command line asks for."""
    return 0


if __name__ == "__main__":
    sys.exit(main())
