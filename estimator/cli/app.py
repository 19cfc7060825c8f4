"""``estimator app``: the browser face."""

import argparse
import os
import sys
from typing import Any


def add_to(commands: Any) -> None:
    """Add the command to the parser's commands."""
    command = commands.add_parser("app", help="open the estimator in the browser")
    command.add_argument("--port", type=int, default=8501, help="port to serve on (%(default)s)")
    command.add_argument(
        "--no-browser", action="store_true", help="serve only; open the address yourself"
    )
    command.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> None:
    """Become the server of the browser face."""
    sys.stdout.flush()
    headless = "true" if chosen.no_browser else "false"
    serve = [f"--server.port={chosen.port}", f"--server.headless={headless}"]
    os.execv(sys.executable, [sys.executable, "-m", "estimator.web", *serve])
