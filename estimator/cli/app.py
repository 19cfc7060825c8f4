"""``estimator app``: the browser face."""

import argparse
import os
import sys
from typing import Any

from estimator.workflow.places import app_script


def add_to(commands: Any) -> None:
    """Add the command to the parser's commands."""
    command = commands.add_parser("app", help="open the estimator in the browser")
    command.add_argument("--port", type=int, default=8501, help="port to serve on (%(default)s)")
    command.add_argument(
        "--no-browser", action="store_true", help="serve only; open the address yourself"
    )
    command.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> None:
    """Become the Streamlit server of the app."""
    from estimator.web.theme import options  # Streamlit is slow to import

    arguments = [
        sys.executable,
        "-m",
        "streamlit",
        "run",
        str(app_script()),
        f"--server.port={chosen.port}",
        f"--server.headless={str(chosen.no_browser).lower()}",
        *options(),
    ]
    sys.stdout.flush()
    os.execv(sys.executable, arguments)
