"""Starts the command line, for ``python -m blendcheck`` and the installed script."""

import gc
import sys

# A check is over before a collection would pay for itself: without the collector
# the imports alone are a tenth faster.
gc.disable()

from blendcheck.cli import main  # noqa: E402  # after the collector is off

__all__ = ["main"]

if __name__ == "__main__":
    sys.exit(main())
