"""Plans and papers on disk, written whole or not at all."""

import json
import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

from estimator.errors import DocumentError, SourceError
from estimator.plan.exchange import plan_from_dict, plan_to_dict
from estimator.plan.plan import Plan

# A plan of 10,000 rooms takes about 10 MB.
LARGEST_PLAN_BYTES = 100_000_000


def load_plan(path: Path) -> Plan:
    """Return the plan of a ``plan.json``.

    Raises
    ------
    SourceError
        When the file cannot be read or is no JSON.
    PlanError
        When it describes no plan.
    """
    try:
        if path.stat().st_size > LARGEST_PLAN_BYTES:
            raise SourceError(path.name, "it is too large for a plan", "give a plan.json")
        return plan_from_text(path.name, path.read_bytes())
    except OSError as error:
        raise SourceError(
            str(path), f"it cannot be opened ({error.strerror})", "check its name and place"
        ) from error


def plan_from_text(name: str, text: str | bytes) -> Plan:
    """Return the plan that JSON text describes; ``name`` is for messages.

    Raises
    ------
    SourceError
        When the text is no JSON.
    PlanError
        When it describes no plan.
    """
    try:
        data = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise SourceError(name, "it is not JSON", "give a plan.json") from error
    return plan_from_dict(data)


def plan_text(plan: Plan) -> str:
    """Return the plan as the text of a ``plan.json``."""
    return json.dumps(plan_to_dict(plan), indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def save(path: Path, content: str | bytes) -> None:
    """Write a file in one step, so that a cut-off run leaves the old one whole.

    Raises
    ------
    DocumentError
        When the file cannot be written.
    """
    with replacing(path) as file:
        file.write(content.encode() if isinstance(content, str) else content)


@contextmanager
def replacing(path: Path) -> Iterator[BinaryIO]:
    """Give a file to write that takes the place of the old one when all of it is written.

    Raises
    ------
    DocumentError
        When the file cannot be written.
    """
    try:
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}-")
        try:
            with os.fdopen(handle, "w+b") as file:
                yield file
            Path(name).chmod(0o644)
            Path(name).replace(path)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise
    except OSError as error:
        raise DocumentError(
            str(path), f"it cannot be written ({error.strerror})", "choose another place"
        ) from error
