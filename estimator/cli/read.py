"""``estimator read``: rooms out of pictures, pages of documents and drawings."""

import argparse
from collections.abc import Sequence
from pathlib import Path
from statistics import median
from typing import Any

from estimator.errors import QuantityError
from estimator.lettering.consensus import Vote
from estimator.plan.doubt import Aspect
from estimator.plan.opening import Point
from estimator.plan.plan import Plan
from estimator.plan.review import review
from estimator.plan.storey import Storey
from estimator.quantities.areas import area
from estimator.quantities.lengths import length
from estimator.quantities.scales import drawing_scale
from estimator.workflow.asking import Question, scale_question
from estimator.workflow.files import plan_text, save
from estimator.workflow.overlays import overlays
from estimator.workflow.reading import ReadPlan, read_paths
from estimator.workflow.scaling import DrawnAt, Known, KnownLength, KnownTotal

MOST_CHECKS = 5
"""Things to look at that are named, worst first."""


def add_to(commands: Any) -> None:
    """Add the command to the parser's commands."""
    command = commands.add_parser(
        "read",
        help="read the rooms of a plan",
        description=(
            "Read rooms, doors and windows from pictures, PDFs, DXF or IFC. Several files, the "
            "pages of a file that show plans, and plans beside each other on one sheet are the "
            "storeys of one plan. For pictures say one thing you know about their size, or the "
            "scale is taken from what is printed on them or guessed from the doors. A length is "
            "one of the first plan, an area that of all rooms."
        ),
    )
    add = command.add_argument
    add(
        "inputs", type=Path, nargs="+", metavar="INPUT", help="PNG, JPEG, TIFF, WebP, PDF, DXF, IFC"
    )
    add("-o", "--output", type=Path, required=True, metavar="PLAN", help="plan.json to write")
    add("--page", type=int, metavar="N", help="the only page to read, instead of all with a plan")
    add(
        "--overlay",
        type=Path,
        metavar="PNG",
        help="write the rooms drawn over the picture; further pages get -2, -3 ... in their names",
    )
    add(
        "--no-lettering",
        action="store_true",
        help="leave room names and printed sizes unread, which is quicker",
    )
    size = command.add_mutually_exclusive_group()
    size.add_argument(
        "--between",
        nargs=3,
        metavar=("X1,Y1", "X2,Y2", "LENGTH"),
        help="two points of the picture in pixels and how far they are apart on site",
    )
    size.add_argument("--floor-area", metavar="AREA", help="floor area of all rooms together")
    size.add_argument(
        "--total-area", metavar="AREA", help="the same, walls between the rooms counted"
    )
    size.add_argument(
        "--drawn-at", metavar="SCALE", help='drawing scale and sheet, such as "1:50 @ A3"'
    )
    command.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> None:
    """Write the plan and say what was read."""
    found = read_paths(
        chosen.inputs,
        page=chosen.page,
        known=_known(chosen),
        lettering=not chosen.no_lettering,
    )
    save(chosen.output, plan_text(found.plan))
    if chosen.overlay:
        for at, png in enumerate(overlays(found), start=1):
            name = f"{chosen.overlay.stem}-{at}{chosen.overlay.suffix}"
            save(chosen.overlay if at == 1 else chosen.overlay.with_name(name), png)
    print(summary(found))
    print(f"written to {chosen.output}")


def summary(found: ReadPlan) -> str:
    """Return what was read in a few lines for the terminal."""
    plan = found.plan
    lines = [f"{len(plan.rooms)} rooms"]
    if plan.is_scaled:
        floor = sum(room.outline.area for room in plan.rooms if room.outline)
        by = plan.scale.basis if plan.scale else "the sizes in the drawing"
        lines[0] += f", {floor:.1f} m² of floor by {by}"
    else:
        lines[0] += ", in proportion but of unknown size"
    if len(plan.storeys) > 1:
        lines += [_storey(plan, storey) for storey in plan.storeys]
    lines += [line for page in found.pages for line in _votes(page.votes)]
    question = scale_question(plan)
    checks = [check for check in review(plan) if not (question and check.aspect is Aspect.SCALE)]
    lines += [f"  to check: {check.says}" for check in checks[:MOST_CHECKS]]
    if len(checks) > MOST_CHECKS:
        lines.append(f"  and {len(checks) - MOST_CHECKS} more of less weight")
    if question:
        lines.append(f"{question.says} {_answer(question, plan)}")
    return "\n".join(lines)


def _storey(plan: Plan, storey: Storey) -> str:
    rooms = [room for room in plan.rooms if room.storey == storey.number]
    counted = f"{len(rooms)} room{'s' if len(rooms) != 1 else ''}"
    sizes = [room.outline.area for room in rooms if room.outline]
    floor = f", {sum(sizes):.1f} m²" if len(sizes) == len(rooms) else ""
    return f"  {storey.name or f'storey {storey.number + 1}'}: {counted}{floor}"


def _answer(question: Question, plan: Plan) -> str:
    """Return how to answer with the options of the command."""
    points = " ".join(f"{x:g},{y:g}" for x, y in (question.start_px, question.end_px))
    source = plan.storey(question.storey).source
    pictures = {storey.source for storey in plan.storeys if storey.source}
    alone = (
        f" on {source.file} alone, with --page {source.page}"
        if source and len(pictures) > 1
        else ""
    )
    return f"Give one known length: --between {points} LENGTH{alone}."


def _votes(votes: Sequence[Vote]) -> list[str]:
    """Return what each kind of printed figure says of the scale, and each that does not agree."""
    lines = []
    for kind in dict.fromkeys(vote.kind for vote in votes):
        says = [vote.metres_per_px for vote in votes if vote.kind == kind and vote.agrees]
        if says:
            lines.append(f"  scale: {len(says)} × {kind} say {1000 * median(says):.3g} mm a pixel")
    return lines + [
        f"  does not agree: {vote.says} says {1000 * vote.metres_per_px:.3g} mm a pixel"
        for vote in votes
        if not vote.agrees
    ]


def _known(chosen: argparse.Namespace) -> Known | None:
    if chosen.between:
        start, end, apart = chosen.between
        return KnownLength(start_px=_point(start), end_px=_point(end), length=length(apart))
    if chosen.floor_area:
        return KnownTotal(area=area(chosen.floor_area), with_inner_walls=False)
    if chosen.total_area:
        return KnownTotal(area=area(chosen.total_area), with_inner_walls=True)
    if chosen.drawn_at:
        return DrawnAt(drawing_scale=drawing_scale(chosen.drawn_at))
    return None


def _point(text: str) -> Point:
    try:
        x, y = map(float, text.split(","))
    except ValueError:
        raise QuantityError(text, "it is no point of the picture", "write it as 120,340") from None
    return x, y
