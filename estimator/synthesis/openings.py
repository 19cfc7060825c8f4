"""Draws doors, windows and passages into the walls."""

import math

import numpy as np

from estimator.plan.opening import OpeningKind
from estimator.synthesis.frame import Frame
from estimator.synthesis.layouts import Gap, Layout, Ring
from estimator.synthesis.paper import Colour, Paper
from estimator.synthesis.styles import DoorManner, Style, WallManner, WindowManner

_LEAF_M = 0.045
_PANES = {
    WindowManner.TWO_LINES: (0.0, 1.0),
    WindowManner.THREE_LINES: (0.0, 0.5, 1.0),
    WindowManner.FOUR_LINES: (0.0, 0.36, 0.64, 1.0),
    WindowManner.BOX: (0.0, 1.0),
    WindowManner.BAR: (0.5,),
    WindowManner.GAP: (),
    WindowManner.TINTED: (0.0, 1.0),
    WindowManner.SILL: (0.35, 0.65),
}


def draw_openings(paper: Paper, layout: Layout, frame: Frame, style: Style) -> None:
    """Cut every gap out of its wall and draw what fills it."""
    uses = {space.name: space.use for space in layout.spaces}
    for number, gap in enumerate(layout.gaps):
        manner = style.inner if gap.other else style.outer or style.inner
        floor = style.floor(uses[gap.room]) if gap.other else style.paper
        _cut(paper, gap, frame, manner, floor, style.slack_px)
        if gap.kind is OpeningKind.WINDOW:
            _window(paper, gap, frame, style)
        elif gap.kind is OpeningKind.DOOR:
            second = style.second_doors if number % 3 == 0 else None
            _door(paper, gap, frame, style, second or style.doors)


def _cut(
    paper: Paper, gap: Gap, frame: Frame, manner: WallManner, floor: Colour, slack_px: float
) -> None:
    spare = (max(manner.line_px, 1.0) / 2 + slack_px) / frame.px_per_m
    paper.fill(frame.px(gap.band(spare)), floor, exact=True)
    if manner.line_px:
        for along in (0.0, gap.width):
            jamb = np.array([gap.place(along, -gap.back), gap.place(along, gap.front)])
            paper.stroke([frame.px(jamb)], manner.line, manner.line_px)


def _window(paper: Paper, gap: Gap, frame: Frame, style: Style) -> None:
    if style.windows is WindowManner.TINTED:
        paper.fill(frame.px(gap.band()), style.glass)
    if style.windows is WindowManner.BAR:
        thin = _box(gap, 0.0, gap.width, (gap.front - gap.back) / 2, 0.05)
        paper.fill(frame.px(thin), style.ink)
        return
    lines = []
    for share in _PANES[style.windows]:
        across = -gap.back + share * (gap.front + gap.back)
        lines.append(frame.px(np.array([gap.place(0, across), gap.place(gap.width, across)])))
    if lines:
        paper.stroke(lines, style.ink, style.opening_line_px)
    if style.windows is WindowManner.SILL:
        sill = _box(gap, -0.06, gap.width + 0.06, -gap.back, 0.1)
        paper.stroke([frame.px(sill)], style.ink, style.opening_line_px, closed=True)
    if style.windows is WindowManner.BOX:
        paper.stroke([frame.px(gap.band())], style.ink, style.opening_line_px, closed=True)


def _box(gap: Gap, start: float, end: float, across: float, thick: float) -> Ring:
    """Return a rectangle along the gap, centred so far into the room."""
    low, high = across - thick / 2, across + thick / 2
    return np.array(
        [gap.place(start, low), gap.place(end, low), gap.place(end, high), gap.place(start, high)]
    )


def _door(paper: Paper, gap: Gap, frame: Frame, style: Style, manner: DoorManner) -> None:
    if style.has_thresholds:
        faces = [
            frame.px(np.array([gap.place(0, across), gap.place(gap.width, across)]))
            for across in (-gap.back, gap.front)
        ]
        paper.stroke(faces, style.furniture_line, style.opening_line_px * 0.6)
    if gap.manner == "sliding":
        middle = (gap.front - gap.back) / 2
        for start, end, shift in ((0.0, 0.54, 0.028), (0.46, 1.0, -0.028)):
            box = _box(gap, gap.width * start, gap.width * end, middle + shift, 0.045)
            paper.fill(frame.px(box), style.paper)
            paper.stroke([frame.px(box)], style.ink, style.opening_line_px, closed=True)
    elif gap.manner == "garage":
        box = _box(gap, 0.0, gap.width, gap.front - 0.06, 0.06)
        paper.stroke([frame.px(box)], style.ink, style.opening_line_px, closed=True)
    elif gap.manner == "folding":
        _folding(paper, gap, frame, style)
    elif gap.manner == "double":
        for from_start in (True, False):
            _leaf(paper, gap, frame, style, manner, from_start=from_start)
    else:
        _leaf(paper, gap, frame, style, manner, from_start=gap.hinge_at_start)


def _folding(paper: Paper, gap: Gap, frame: Frame, style: Style) -> None:
    face, way = (gap.front, 1.0) if gap.opens_inward else (-gap.back, -1.0)
    quarter = gap.width / 4
    for side in (0.0, gap.width):
        step = quarter * 0.45 if side == 0.0 else -quarter * 0.45
        line = np.array(
            [
                gap.place(side, face),
                gap.place(side + step, face + way * quarter * 0.9),
                gap.place(side + 2 * step, face),
            ]
        )
        paper.stroke([frame.px(line)], style.ink, style.opening_line_px * 1.5)


def _leaf(
    paper: Paper, gap: Gap, frame: Frame, style: Style, manner: DoorManner, *, from_start: bool
) -> None:
    """Draw one leaf hung at the start or the end of the gap."""
    if manner is DoorManner.GAP:
        return
    length = gap.width / 2 if gap.manner == "double" else gap.width
    face, way = (gap.front, 1.0) if gap.opens_inward else (-gap.back, -1.0)
    hinge, along = (0.0, 1.0) if from_start else (gap.width, -1.0)
    if manner in (DoorManner.CLOSED, DoorManner.PANEL):
        thick = _LEAF_M if manner is DoorManner.CLOSED else gap.front + gap.back
        ends = sorted((hinge, hinge + along * length))
        box = frame.px(_box(gap, ends[0], ends[1], (gap.front - gap.back) / 2, thick))
        paper.stroke([box], style.ink, style.opening_line_px, closed=True)
        return
    opened = 50 if manner is DoorManner.HALF_OPEN else 90

    def at(radius: float, degrees: float, back: float = 0.0) -> tuple[float, float]:
        turn = math.radians(degrees)
        return gap.place(
            hinge + along * (radius * math.cos(turn) + back * math.sin(turn)),
            face + way * (radius * math.sin(turn) - back * math.cos(turn)),
        )

    swing = frame.px(np.array([at(length, step) for step in np.linspace(0, opened, 13)]))
    if manner is DoorManner.FILLED:
        pivot = frame.px(np.array([at(0, 0)]))
        paper.fill(np.concatenate([pivot, swing]), style.furniture_line)
    if manner is not DoorManner.BARE_LEAF:
        paper.stroke([swing], style.ink, style.opening_line_px * 0.7)
    if manner is DoorManner.BARE_ARC:
        return
    if manner in (DoorManner.THIN_LEAF_AND_ARC, DoorManner.BARE_LEAF):
        leaf = frame.px(np.array([at(0, opened), at(length, opened)]))
        paper.stroke([leaf], style.ink, style.opening_line_px * 1.2)
        return
    leaf = frame.px(
        np.array(
            [at(0, opened), at(length, opened), at(length, opened, _LEAF_M), at(0, opened, _LEAF_M)]
        )
    )
    paper.fill(leaf, style.paper)
    paper.stroke([leaf], style.ink, style.opening_line_px, closed=True)
