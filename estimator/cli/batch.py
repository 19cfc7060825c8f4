"""``estimator batch``: every plan of a folder, a row each."""

import argparse
import sys
from collections import Counter
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Any

from estimator.batch.basis import Basis
from estimator.batch.batch import Workers, batch_of, carried_out
from estimator.batch.cluster import ClusterWorkers
from estimator.batch.local import LocalWorkers
from estimator.batch.row import Row, Status
from estimator.cli.progress import Progress
from estimator.quantities.counted import counted
from estimator.workflow.firm_book import firm_book
from estimator.workflow.quoting import usual_job


def add_to(commands: Any) -> None:
    """Add the command to the parser's commands."""
    command = commands.add_parser(
        "batch",
        help="price every plan of a folder",
        description=(
            "Price every file of a folder and the folders in it: pictures, PDFs, DXF, IFC, "
            "plan.json, and typed rooms as .txt. Each is one site and one row of the results; what "
            "gives no price is a row that says why. The results are written row by row: after "
            "Ctrl-C, or whatever else ends it, the same command goes on where it stopped, and does "
            "anew only what has changed."
        ),
    )
    add = command.add_argument
    add("folder", type=Path, metavar="FOLDER", help="where the plans are")
    add("-o", "--output", type=Path, required=True, metavar="CSV", help="results.csv to write")
    add(
        "--book",
        action="append",
        default=[],
        type=Path,
        metavar="FILE",
        help="book laid over the firm's own",
    )
    add(
        "--scheduler",
        metavar="ADDRESS",
        help="Dask cluster that does the work, such as tcp://host:8786; else this machine does",
    )
    command.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> None:
    """Work through the folder, showing how far it is, and say what became of it."""
    book = firm_book(*chosen.book)
    basis = Basis(book=book, job=usual_job(book))
    batch = batch_of(chosen.folder, chosen.output, basis)
    rows = {row.file: row for row in batch.done}
    with _workers(basis, chosen.scheduler) as workers:
        try:
            with Progress(total=len(batch.names), done=len(rows), shown_on=sys.stderr) as progress:
                for row in carried_out(batch, workers):
                    rows[row.file] = row
                    progress.step(f"{row.status}: {row.says}" if row.says else "")
        finally:
            print(summary(tuple(rows.values()), earlier=len(batch.done)))
            if left := len(batch.names) - len(rows):
                print(f"{left} left: the same command goes on from here")
            print(f"written to {chosen.output}")
            print("look at each plan, its doubts and the product's label before you quote it")


def summary(rows: tuple[Row, ...], *, earlier: int) -> str:
    """Return how many inputs became what, in one line."""
    counts = Counter(row.status for row in rows)
    words = ", ".join(f"{counts[status]} {status}" for status in Status if counts[status])
    kept = f" ({earlier} from before)" if earlier else ""
    return f"{counted(len(rows), 'plan')}{kept}: {words or 'nothing done'}"


def _workers(basis: Basis, scheduler: str | None) -> "AbstractContextManager[Workers]":
    return ClusterWorkers(basis, scheduler) if scheduler else LocalWorkers(basis)
