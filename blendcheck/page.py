"""Starts the page on this machine, and nowhere else."""

import os
import subprocess
import sys
from importlib.resources import as_file, files

from blendcheck.errors import InputError

__all__ = ["DEMO", "start"]

DEMO = "BLENDCHECK_DEMO"
"""Environment variable that tells the page to start with the demo."""

_FLAGS = (
    "--server.address=127.0.0.1",
    "--server.showEmailPrompt=false",
    "--server.fileWatcherType=none",
    "--server.maxUploadSize=10",
    "--browser.gatherUsageStats=false",
    "--client.toolbarMode=minimal",
    "--client.showErrorDetails=none",
    "--theme.primaryColor=#0072B2",
)
"""Bound to the loopback address, no statistics, no prompt for an address."""


def start(*, demo: bool, port: int | None) -> int:
    """Serve the page until it is stopped.

    Parameters
    ----------
    demo : bool
        Start with the demo recipes loaded.
    port : int or None
        Port on this machine; the usual one by default.

    Returns
    -------
    int
        Exit status of the server.

    Raises
    ------
    InputError
        If the port is not one.
    """
    if port is not None and not 0 < port < 65536:
        raise InputError(f"{port} is not a port", "choose one from 1024 to 65535")
    environment = dict(os.environ)
    if demo:
        environment[DEMO] = "1"
    with as_file(files("blendcheck.ui") / "main.py") as script:
        command = [sys.executable, "-m", "streamlit", "run", str(script), *_FLAGS]
        if port is not None:
            command.append(f"--server.port={port}")
        try:
            return subprocess.run(command, env=environment, check=False).returncode  # noqa: S603
        except KeyboardInterrupt:
            return 0
