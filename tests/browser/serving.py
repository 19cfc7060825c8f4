"""Servers of the tests' own: a free port for one, and waiting until it answers."""

import socket
import time
import urllib.error
import urllib.request

import pytest

_STARTS_WITHIN = 90  # seconds; a laptop needs five


def free_port() -> int:
    """Return a port of this machine that nothing listens on."""
    with socket.socket() as one:
        one.bind(("localhost", 0))
        return int(one.getsockname()[1])


def wait_for(port: int) -> None:
    """Wait until the app on a port answers, and fail where it does not."""
    until = time.monotonic() + _STARTS_WITHIN
    while time.monotonic() < until:
        try:
            with urllib.request.urlopen(f"http://localhost:{port}/_stcore/health", timeout=5):
                return
        except (urllib.error.URLError, OSError):
            time.sleep(0.2)
    pytest.fail(f"The app did not start within {_STARTS_WITHIN} seconds.")
