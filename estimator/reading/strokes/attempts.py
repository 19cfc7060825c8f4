"""Which strokes are the walls: each way that may be right is tried, the best kept."""

from collections.abc import Iterator

import cv2
import numpy as np
from attrs import evolve, frozen

from estimator.reading.ink import Ink
from estimator.reading.settings import Settings
from estimator.reading.strokes.cavities import filled_in
from estimator.reading.strokes.evidence import evidence_for
from estimator.reading.strokes.faces import Faces, faces_of
from estimator.reading.strokes.gaps import gaps_in
from estimator.reading.strokes.walls import Strokes, Widths, at_least, strokes_of, wall_strokes


@frozen(kw_only=True, eq=False)
class Attempt:
    """Some strokes taken for the walls, and the faces they enclose.

    Parameters
    ----------
    room_like
        How many faces have a way in, and more wall than gap around them.
    """

    strokes: Strokes
    faces: Faces
    room_like: int

    @property
    def plausibility(self) -> int:
        """How many faces look like rooms, more than look like clutter."""
        return 2 * self.room_like - self.faces.count

    @property
    def is_clean(self) -> bool:
        """Whether every face looks like a room."""
        return self.room_like == self.faces.count


def best_attempt(ink: Ink, settings: Settings) -> Attempt | None:
    """Return the best way to tell walls from other ink; None when there is none at all.

    Solid walls are tried first, then walls filled with a pale grey, pairs of lines, and single
    lines; the search ends with the first kind that gives rooms.
    """
    best: Attempt | None = None
    for ways in (_solid_ways, _pale_ways, _hollow_ways, _line_ways):
        tried = [best] if best else []
        for strokes in ways(ink, settings):
            if any(np.array_equal(strokes.walls, known.strokes.walls) for known in tried):
                continue
            thin = (ink.dark | ink.faint) & ~strokes.walls
            tried.append(_attempt(evolve(strokes, thin=thin), settings))
            if (
                ways is _solid_ways
                and tried[-1].faces.count >= settings.rooms_sure
                and tried[-1].is_clean
            ):
                break
        best = max(tried, key=lambda one: (one.plausibility, -one.faces.count), default=None)
        if best and best.plausibility >= settings.rooms_enough:
            break
    return best


def _solid_ways(ink: Ink, settings: Settings) -> Iterator[Strokes]:
    """Yield the ways to part solid walls from thinner strokes, the likeliest first.

    Walls of one thickness may be no more than the outer ones; then the next way is likelier.
    """
    ways = wall_strokes(ink.dark, settings)
    first = next(ways, None)
    if not first or first.thickness[1] <= settings.line_most:
        return
    if first.thickness[1] < settings.one_thickness * first.thickness[0] and (
        second := next(ways, None)
    ):
        yield second
    yield first
    yield from ways


def _pale_ways(ink: Ink, settings: Settings) -> Iterator[Strokes]:
    """Yield the ways in which walls are filled with a grey too pale for ink."""
    if ink.pale.mean() > settings.ink_most:
        return
    for way in wall_strokes(ink.pale, settings, least=settings.hollow_lines * _line(ink, settings)):
        if way.thickness[1] > settings.line_most:
            yield way


def _hollow_ways(ink: Ink, settings: Settings) -> Iterator[Strokes]:
    """Yield the ways in which pairs of lines may be walls."""
    line = _line(ink, settings)
    least = settings.hollow_lines * line
    for filled in filled_in(ink.dark, settings):
        for way in wall_strokes(filled, settings, least=least):
            yield evolve(way, line=line)
        widths = Widths.of(filled)
        if every := strokes_of(at_least(least, filled, widths), filled, widths, settings):
            yield evolve(every, line=line)


def _line(ink: Ink, settings: Settings) -> float:
    """Return how thick the lines are that walls may be drawn with."""
    lines = next(wall_strokes(ink.dark, settings), None)
    return lines.thickness[0] if lines else float(np.median(Widths.of(ink.dark).within(ink.dark)))


def _line_ways(ink: Ink, settings: Settings) -> Iterator[Strokes]:
    """Yield the ways in which single lines may be walls."""
    yield from wall_strokes(ink.dark, settings)
    if every := strokes_of(ink.dark, ink.dark, Widths.of(ink.dark), settings):
        yield every


def _attempt(strokes: Strokes, settings: Settings) -> Attempt:
    """Take some strokes for the walls and see which faces they enclose."""
    broad = cv2.dilate(strokes.thin.view(np.uint8), np.ones((3, 3), np.uint8)) > 0
    gaps, evidence = [], []
    for gap in gaps_in(strokes, settings):
        seen = evidence_for(gap, strokes.thin, broad)
        if gap.firm or seen.supports(settings):
            gaps.append(gap)
            evidence.append(seen)
    faces = faces_of(strokes, gaps, evidence, settings)
    return Attempt(strokes=strokes, faces=faces, room_like=_room_like(faces))


def _room_like(faces: Faces) -> int:
    """Return how many faces have a way in, and more wall than gap around them."""
    gaps = np.zeros(faces.count + 1)
    reached = np.zeros(faces.count + 1, bool)
    for closure in faces.closures:
        for side in closure.sides:
            gaps[side] += closure.gap.width_px
            reached[side] |= closure.firm
    boxes = np.array(faces.boxes).reshape(-1, 4)
    around = 2.0 * (boxes[:, 2] - boxes[:, 0] + boxes[:, 3] - boxes[:, 1])
    return int(np.count_nonzero(reached[1:] & (gaps[1:] < 0.7 * around)))
