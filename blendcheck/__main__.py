"""Run the command line with ``python -m blendcheck``."""

from blendcheck.cli import main

if __name__ == "__main__":
    raise SystemExit(main())
