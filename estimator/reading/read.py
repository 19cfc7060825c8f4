"""Read one picture into a plan, step by step."""

import cv2
import numpy as np
from attrs import evolve, frozen

from estimator.errors import NoClosedRoom, NoWalls
from estimator.plan.plan import Plan
from estimator.plan.storey import Storey
from estimator.reading.cavities import filled_in
from estimator.reading.confidence import doubts_about
from estimator.reading.evidence import evidence_for
from estimator.reading.faces import Faces, faces_of
from estimator.reading.frame import Frame, frame
from estimator.reading.gaps import gaps_in
from estimator.reading.ink import Mask, faint_of, ink_of
from estimator.reading.picture import Picture
from estimator.reading.rooms import rooms_of
from estimator.reading.settings import Settings
from estimator.reading.walls import Strokes, Widths, at_least, line_around, strokes_of, wall_strokes


@frozen(kw_only=True, eq=False)
class Reading:
    """What was seen in a picture, step by step, and the plan that came of it."""

    picture: Picture
    frame: Frame
    ink: Mask
    strokes: Strokes
    faces: Faces
    plan: Plan


def read(picture: Picture, settings: Settings = Settings()) -> Reading:  # noqa: B008 (frozen)
    """Read the rooms, doors and windows of a floor plan from its picture.

    Raises
    ------
    ReadingError
        NoWalls or NoClosedRoom when the picture shows no plan.
    """
    framed = frame(picture, settings)
    ink = ink_of(framed.grey, settings)
    faint = faint_of(framed.grey, 2.0, settings)
    best: tuple[Strokes, Faces] | None = None
    for ways in (_solid_ways, _hollow_ways, _line_ways):
        tried = [] if best is None else [best]
        for strokes in ways(ink, settings):
            tried.append(_attempt(evolve(strokes, thin=(ink | faint) & ~strokes.walls), settings))
        best = max(tried, key=lambda attempt: _plausibility(attempt[1]), default=None)
        if best and _plausibility(best[1]) >= settings.rooms_enough:
            break
    if not best:
        raise NoWalls(
            picture.file, "no strokes in it look like walls", "send a floor plan, or type the rooms"
        )
    strokes, faces = best
    if not strokes.line:
        strokes = evolve(strokes, line=line_around(framed.grey, strokes, settings))
    rooms = rooms_of(faces, framed, strokes, settings)
    if not rooms:
        raise NoClosedRoom(
            picture.file, "no walls in it enclose a room", "send a floor plan, or type the rooms"
        )
    plan = Plan(
        storeys=(Storey(source=picture.source),),
        rooms=tuple(rooms.values()),
        doubts=doubts_about(rooms, faces, framed, strokes, settings),
    )
    return Reading(picture=picture, frame=framed, ink=ink, strokes=strokes, faces=faces, plan=plan)


def _solid_ways(ink: Mask, settings: Settings) -> list[Strokes]:
    """Return the ways to part solid walls from thinner strokes, the likeliest first."""
    ways = wall_strokes(ink, settings)
    return ways if ways and ways[0].thickness[1] > settings.line_most else []


def _hollow_ways(ink: Mask, settings: Settings) -> list[Strokes]:
    """Return the ways in which pairs of lines may be walls."""
    lines = wall_strokes(ink, settings)
    line = lines[0].thickness[0] if lines else float(np.median(Widths.of(ink).within(ink)))
    least = settings.hollow_lines * line
    ways = []
    for filled in filled_in(ink, settings):
        ways += wall_strokes(filled, settings, least=least)
        widths = Widths.of(filled)
        if way := strokes_of(at_least(least, filled, widths), filled, widths, settings):
            ways.append(way)
    return [evolve(way, line=line) for way in ways]


def _line_ways(ink: Mask, settings: Settings) -> list[Strokes]:
    """Return the ways in which single lines may be walls."""
    every = strokes_of(ink, ink, Widths.of(ink), settings)
    return wall_strokes(ink, settings) + ([every] if every else [])


def _attempt(strokes: Strokes, settings: Settings) -> tuple[Strokes, Faces]:
    """Take some strokes for the walls and see which faces they enclose."""
    broad = cv2.dilate(strokes.thin.view(np.uint8), np.ones((3, 3), np.uint8)) > 0
    gaps, evidence = [], []
    for gap in gaps_in(strokes, settings):
        seen = evidence_for(gap, strokes.thin, broad)
        if gap.firm or seen.supports(settings):
            gaps.append(gap)
            evidence.append(seen)
    return strokes, faces_of(strokes, gaps, evidence, settings)


def _plausibility(faces: Faces) -> int:
    """Return how many faces look like rooms more than look like clutter.

    A room has a way in, and more of its edge is wall than gap.
    """
    gaps = np.zeros(faces.count + 1)
    reached = np.zeros(faces.count + 1, bool)
    for closure in faces.closures:
        for side in closure.sides:
            gaps[side] += closure.gap.width_px
            reached[side] |= closure.firm
    boxes = np.array(faces.boxes).reshape(-1, 4)
    around = 2.0 * (boxes[:, 2] - boxes[:, 0] + boxes[:, 3] - boxes[:, 1])
    like_rooms = reached[1:] & (gaps[1:] < 0.7 * around)
    return 2 * int(np.count_nonzero(like_rooms)) - faces.count
