"""The command ``estimator``: one verb a use case, every failure one sentence."""

import argparse
import sys
from collections.abc import Sequence

from estimator.cli import app, archive, batch, quote, read, sketch
from estimator.errors import EstimatorError

# Exit status when the input cannot be used, by the contract of the commands.
UNUSABLE = 2

# Exit status after Ctrl-C, by the custom of shells: 128 and the number of the signal.
INTERRUPTED = 130


def parser() -> argparse.ArgumentParser:
    """Return the parser of all commands."""
    main = argparse.ArgumentParser(
        prog="estimator",
        description="From a floor plan to surfaces, disinfectant, crew time and a price.",
    )
    commands = main.add_subparsers(title="commands", required=True, metavar="COMMAND")
    for command in (read, sketch, quote, batch, archive, app):
        command.add_to(commands)
    return main


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status: 0, or 2 with one sentence on stderr."""
    chosen = parser().parse_args(arguments)
    try:
        chosen.run(chosen)
    except EstimatorError as error:
        print(error, file=sys.stderr)
        return UNUSABLE
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        # The reader of our output, such as `head`, has seen enough.
        sys.stderr.close()
    return 0
