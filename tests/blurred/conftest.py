"""Prints the share decided at the end of a run: it is the tool's usefulness."""

import pytest

SUMMARIES = pytest.StashKey[list[str]]()


def pytest_terminal_summary(terminalreporter, config):
    for text in config.stash.get(SUMMARIES, []):
        terminalreporter.section("blurred truth")
        terminalreporter.write_line(text)


@pytest.fixture(scope="session")
def keep_summary(request):
    """Keep a text for the end of the run."""
    return request.config.stash.setdefault(SUMMARIES, []).append
