"""Starts the command line, for ``python -m blendcheck`` and the installed script."""

import gc
import os
import sys

# A check is over before a collection would pay for itself: without the collector
# the imports alone are a tenth faster.
gc.disable()
# Records are read by pydantic as it comes: no other package's plug-in is looked for.
os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")

from blendcheck import cli  # noqa: E402  # after the collector is off

__all__ = ["main"]


def main() -> int:
    """Run the command line with the arguments of the process.

    Returns
    -------
    int
        Exit status.
    """
    status = cli.main()
    gc.freeze()  # or the end of the process looks through all that is left
    return status


if __name__ == "__main__":
    sys.exit(main())
