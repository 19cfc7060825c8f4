"""``estimator read``: rooms out of one picture, PDF page or drawing."""

import argparse
from pathlib import Path
from statistics import median
from typing import Any

from estimator.documents.overlay import overlay_png
from estimator.errors import QuantityError
from estimator.plan.opening import Point
from estimator.quantities.areas import area
from estimator.quantities.lengths import length
from estimator.quantities.scales import drawing_scale
from estimator.workflow.drawings import sheet_png
from estimator.workflow.files import plan_text, save
from estimator.workflow.reading import ReadPlan, read_file
from estimator.workflow.scaling import DrawnAt, Known, KnownLength, KnownTotal


def add_to(commands: Any) -> None:
    """Add the command to the parser's commands."""
    command = commands.add_parser(
        "read",
        help="read the rooms of a plan",
        description=(
            "Read rooms, doors and windows from a picture, a PDF page, a DXF or an IFC. For a "
            "picture or page say one thing you know about its size, or the scale is taken from "
            "the file's text or guessed from the doors."
        ),
    )
    add = command.add_argument
    add("input", type=Path, metavar="INPUT", help="PNG, JPEG, TIFF, WebP, PDF, DXF or IFC")
    add("-o", "--output", type=Path, required=True, metavar="PLAN", help="plan.json to write")
    add("--page", type=int, default=1, metavar="N", help="page of the file (%(default)s)")
    add("--overlay", type=Path, metavar="PNG", help="write the rooms drawn over the picture")
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
    found = read_file(
        chosen.input,
        page=chosen.page,
        known=_known(chosen),
        lettering=not chosen.no_lettering,
    )
    save(chosen.output, plan_text(found.plan))
    if chosen.overlay:
        save(chosen.overlay, _overlay(found))
    print(summary(found))
    print(f"written to {chosen.output}")


def _overlay(found: ReadPlan) -> bytes:
    if found.pixels is None:
        return sheet_png(found.plan)
    return overlay_png(found.pixels, found.plan)


def summary(found: ReadPlan) -> str:
    """Return what was read in a few lines for the terminal."""
    plan = found.plan
    lines = [f"{len(plan.rooms)} rooms"]
    if plan.is_scaled:
        floor = sum(room.outline.area for room in plan.rooms if room.outline)
        by = plan.scale.basis if plan.scale else "the sizes in the drawing"
        lines[0] += f", {floor:.1f} m² of floor by {by}"
    else:
        lines[0] += ", of unknown size: give a length, an area or a drawing scale"
    lines += _votes(found)
    return "\n".join(lines + [f"  to check: {doubt.says}" for doubt in plan.doubts])


def _votes(found: ReadPlan) -> list[str]:
    """Return what each kind of printed figure says of the scale, and each that does not agree."""
    lines = []
    for kind in dict.fromkeys(vote.kind for vote in found.votes):
        says = [vote.metres_per_px for vote in found.votes if vote.kind == kind and vote.agrees]
        if says:
            lines.append(f"  scale: {len(says)} × {kind} say {1000 * median(says):.3g} mm a pixel")
    return lines + [
        f"  does not agree: {vote.says} says {1000 * vote.metres_per_px:.3g} mm a pixel"
        for vote in found.votes
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
