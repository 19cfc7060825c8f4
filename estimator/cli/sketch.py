"""``estimator sketch``: rooms typed in everyday words."""

import argparse
import sys
from pathlib import Path
from typing import Any

from estimator.workflow.files import plan_text, save
from estimator.workflow.sketching import sketch_plan


def add_to(commands: Any) -> None:
    """Add the command to the parser's commands."""
    command = commands.add_parser(
        "sketch",
        help="make a plan from typed room sizes",
        description="Make a plan from room sizes in everyday words and any unit.",
        epilog="""example: estimator sketch "Kitchen 12' x 14', hall 6 x 2.4 m, ceilings 10 ft" """,
    )
    command.add_argument("text", metavar="TEXT", help="the rooms; - reads them from standard input")
    command.add_argument(
        "-o", "--output", type=Path, required=True, metavar="PLAN", help="plan.json to write"
    )
    command.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> None:
    """Write the plan and say what is in it."""
    plan = sketch_plan(sys.stdin.read() if chosen.text == "-" else chosen.text)
    save(chosen.output, plan_text(plan))
    area = sum(room.outline.area for room in plan.rooms if room.outline)
    print(f"{len(plan.rooms)} rooms, {area:.1f} m² of floor, written to {chosen.output}")
    for doubt in plan.doubts:
        print(f"  to check: {doubt.says}")
