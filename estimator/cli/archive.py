"""``estimator export`` and ``estimator import``: everything that is kept, as one file."""

import argparse
from pathlib import Path
from typing import Any

from estimator.workflow.archives import brought_words, export_to, import_from
from estimator.workflow.storing import store


def add_to(commands: Any) -> None:
    """Add both commands to the parser's commands."""
    out = commands.add_parser(
        "export",
        help="write everything that is kept into one archive of open formats",
        description="Clients, sites, quotes with versions, outcomes, jobs, plans and pictures.",
    )
    out.add_argument("file", type=Path, metavar="FILE", help="the archive to write (zip)")
    out.set_defaults(run=run_export)
    into = commands.add_parser(
        "import",
        help="bring an archive in; what is kept already stays",
        description="Adds what an archive holds to what is kept; all of it, or nothing.",
    )
    into.add_argument("file", type=Path, metavar="FILE", help="the archive to bring in")
    into.set_defaults(run=run_import)


def run_export(chosen: argparse.Namespace) -> None:
    """Write the archive."""
    export_to(store(), chosen.file)
    print(f"Everything kept in {store().where} is in {chosen.file}.")


def run_import(chosen: argparse.Namespace) -> None:
    """Bring the archive in and say what was new."""
    print(brought_words(import_from(store(), chosen.file)))
