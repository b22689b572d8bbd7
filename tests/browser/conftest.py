"""The page in a real browser: its server, Chromium, and a watched page.

Every page is closed to the outside: a request to anywhere but the page's own
server is stopped and written down, and the test fails for it. On a machine
without Chromium these tests are skipped; where ``CI`` is ``true`` they fail.
"""

import os
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest

APP = Path(__file__).parents[2] / "app.py"
START_SECONDS = 60
BROWSERS = ("chromium", "chromium-browser", "google-chrome-stable", "google-chrome")
BROWSER_FLAGS = [
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


def find_chromium() -> str | None:
    """Return the path of an installed Chromium, or None.

    ``BLENDCHECK_CHROMIUM`` names one that is not on the path.
    """
    if named := os.environ.get("BLENDCHECK_CHROMIUM"):
        return named
    return next((path for name in BROWSERS if (path := shutil.which(name))), None)


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@dataclass
class Server:
    """A running page: its address and what it printed so far."""

    url: str
    log_file: Path

    @property
    def log(self) -> str:
        return self.log_file.read_text(encoding="utf-8", errors="replace")


def start_server(folder: Path, port: int) -> "tuple[subprocess.Popen[bytes], Server]":
    """Start the page from a folder of its own, as a person's first start."""
    server = Server(f"http://127.0.0.1:{port}", folder / "server.log")
    work, home = folder / "work", folder / "home"
    work.mkdir()
    home.mkdir()
    command = [
        *(sys.executable, "-m", "streamlit", "run", str(APP)),
        f"--server.port={port}",
        "--server.address=127.0.0.1",
        "--server.headless=true",
        "--server.fileWatcherType=none",
        "--server.showEmailPrompt=false",
        "--browser.gatherUsageStats=false",
    ]
    environment = os.environ | {"HOME": str(home), "USERPROFILE": str(home)}
    with server.log_file.open("wb") as log:
        process = subprocess.Popen(
            command,
            cwd=work,
            env=environment,
            stdin=subprocess.DEVNULL,
            stdout=log,
            stderr=subprocess.STDOUT,
            start_new_session=True,
        )
    return process, server


def wait_until_up(process: "subprocess.Popen[bytes]", server: Server) -> None:
    end = time.monotonic() + START_SECONDS
    while True:
        try:
            with urllib.request.urlopen(f"{server.url}/_stcore/health", timeout=2) as r:  # noqa: S310 - our own http address
                if r.read() == b"ok":
                    return
        except OSError:
            pass  # not listening yet
        if process.poll() is not None or time.monotonic() > end:
            pytest.fail(f"the page's server did not start:\n{server.log}")
        time.sleep(0.1)


def stop(process: "subprocess.Popen[bytes]") -> None:
    process.send_signal(signal.SIGTERM)
    try:
        process.wait(10)
    except subprocess.TimeoutExpired:
        process.kill()
        process.wait()


@pytest.fixture(scope="session")
def app_server(browser, tmp_path_factory) -> Iterator[Server]:
    """One server for the session; asks for the browser first, so that a machine
    without one starts no server."""
    process, server = start_server(tmp_path_factory.mktemp("page"), free_port())
    try:
        wait_until_up(process, server)
        yield server
    finally:
        stop(process)


@pytest.fixture(scope="session")
def app_url(app_server) -> str:
    """The address of the page, with the demo as at the first start."""
    return app_server.url


@pytest.fixture(scope="session")
def browser():
    """Chromium, or a skip with its reason (a failure where ``CI`` is ``true``)."""
    executable = find_chromium()
    if executable is None:
        reason = (
            "no Chromium found: install one (Debian: apt-get install chromium) "
            "or name its file in BLENDCHECK_CHROMIUM"
        )
        if os.environ.get("CI") == "true":
            pytest.fail(reason)
        pytest.skip(reason)
    from playwright.sync_api import sync_playwright

    flags = list(BROWSER_FLAGS)
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        flags.append("--no-sandbox")  # Chromium's sandbox refuses to run as root
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(
            executable_path=executable, headless=True, args=flags
        )
        yield chromium
        chromium.close()


@dataclass
class Watch:
    """What a page tried and what went wrong in it."""

    origin: str
    outside: list[str] = field(default_factory=list)
    errors: list[str] = field(default_factory=list)

    def is_own(self, url: str) -> bool:
        own = (self.origin + "/", self.origin.replace("http", "ws", 1) + "/")
        return url.startswith((*own, "data:", "blob:"))

    def route(self, route) -> None:
        if self.is_own(route.request.url):
            route.continue_()
        else:
            self.outside.append(route.request.url)
            route.abort()

    def socket(self, socket_) -> None:
        if not self.is_own(socket_.url):
            self.outside.append(socket_.url)


@pytest.fixture
def context_options() -> dict[str, object]:
    """Options of the browser's context; override for a phone or for zoom."""
    return {"viewport": {"width": 1280, "height": 900}, "accept_downloads": True}


@pytest.fixture
def watch(app_url) -> Watch:
    """What the page of this test asked from outside, and its script errors."""
    return Watch(app_url)


@pytest.fixture
def page(browser, watch, context_options, request, tmp_path):
    """A fresh page (nothing loaded yet); fails if it reached for the outside.

    On a failed test the picture of the page is kept, and its place printed.
    """
    context = browser.new_context(**context_options)
    context.set_default_timeout(20_000)
    context.route("**/*", watch.route)
    page = context.new_page()
    page.on("websocket", watch.socket)
    page.on("pageerror", lambda error: watch.errors.append(str(error)))
    yield page
    if getattr(request.node, "call_failed", False):
        picture = tmp_path / "failed.png"
        page.screenshot(path=picture, full_page=True)
        print(f"picture of the page: {picture}")
    context.close()
    assert watch.outside == [], "the page reached for the outside"
    assert watch.errors == [], "a script of the page failed"


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item, call):
    report = yield
    if report.when == "call":
        item.call_failed = report.failed
    return report
