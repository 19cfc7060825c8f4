"""Draws doors, windows and passages into the walls."""

import math
from collections.abc import Mapping

import numpy as np

from estimator.plan.opening import OpeningKind
from estimator.synthesis.frame import Frame
from estimator.synthesis.layouts import Gap, Layout, Ring
from estimator.synthesis.paper import Colour, Paper
from estimator.synthesis.styles import DoorManner, Style, WallManner, WindowManner

_LEAF_M = 0.045
_STILL = (DoorManner.GAP, DoorManner.CLOSED, DoorManner.PANEL)
_THIN_LEAVES = (
    DoorManner.THIN_LEAF_AND_ARC,
    DoorManner.BARE_LEAF,
    DoorManner.HALF_OPEN,
    DoorManner.AJAR,
    DoorManner.DASHED_ARC,
)
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
            _door(paper, gap, frame, style, door_manner(style, uses, gap, number))


def door_manner(style: Style, uses: Mapping[str, str], gap: Gap, number: int) -> DoorManner:
    """Return how a gap's door is drawn; ``uses`` by the names of the spaces."""
    if style.closet_doors and "closet" in (uses[gap.room], uses.get(gap.other or "")):
        return style.closet_doors
    return style.second_doors or style.doors if number % 3 == 0 else style.doors


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
    reach = style.window_reach if gap.other is None else 1.0
    for share in _PANES[style.windows]:
        across = -gap.back + share * reach * (gap.front + gap.back)
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
    elif gap.manner == "screen":
        front = gap.front if gap.opens_inward else -gap.back
        line = np.array([gap.place(0, front), gap.place(gap.width, front)])
        paper.stroke([frame.px(line)], style.ink, style.opening_line_px)
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


def swept(gap: Gap, manner: DoorManner, style: Style) -> list[Ring]:
    """Return the corners of the floor that each leaf of a door sweeps, its hinge first."""
    if gap.manner not in ("leaf", "double") or manner in _STILL:
        return []
    way = 1.0 if gap.opens_inward else -1.0
    face = gap.front if gap.opens_inward else -gap.back
    length = gap.width / 2 if gap.manner == "double" else gap.width
    hinges = (True, False) if gap.manner == "double" else (gap.hinge_at_start,)
    turns = np.radians(np.linspace(0, _opened(style, manner), 9))
    sectors = []
    for at_start in hinges:
        hinge, along = (0.0, 1.0) if at_start else (gap.width, -1.0)
        rim = [
            gap.place(hinge + along * length * math.cos(t), face + way * length * math.sin(t))
            for t in turns.tolist()
        ]
        sectors.append(np.array([gap.place(hinge, face), *rim]))
    return sectors


def _opened(style: Style, manner: DoorManner) -> float:
    """Return how far a leaf stands open, in degrees."""
    return style.half_open if manner in (DoorManner.HALF_OPEN, DoorManner.AJAR) else 90.0


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
    opened = _opened(style, manner)

    def at(radius: float, degrees: float, back: float = 0.0) -> tuple[float, float]:
        turn = math.radians(degrees)
        return gap.place(
            hinge + along * (radius * math.cos(turn) + back * math.sin(turn)),
            face + way * (radius * math.sin(turn) - back * math.cos(turn)),
        )

    shut, wide = style.arc
    steps = np.linspace(opened * shut, opened * wide, 13)
    swing = frame.px(np.array([at(length, step) for step in steps]))
    if manner is DoorManner.FILLED:
        pivot = frame.px(np.array([at(0, 0)]))
        paper.fill(np.concatenate([pivot, swing]), style.furniture_line)
    if manner is DoorManner.DASHED_ARC:
        paper.stroke([swing[at : at + 2] for at in range(0, 12, 2)], style.ink, 1.0)
    elif manner not in (DoorManner.BARE_LEAF, DoorManner.AJAR):
        paper.stroke([swing], style.ink, style.opening_line_px * 0.7)
    if manner is DoorManner.BARE_ARC:
        return
    if manner in _THIN_LEAVES:
        leaf = frame.px(np.array([at(0, opened), at(length, opened)]))
        paper.stroke([leaf], style.ink, style.opening_line_px * style.leaf)
        return
    leaf = frame.px(
        np.array(
            [at(0, opened), at(length, opened), at(length, opened, _LEAF_M), at(0, opened, _LEAF_M)]
        )
    )
    paper.fill(leaf, style.paper)
    paper.stroke([leaf], style.ink, style.opening_line_px, closed=True)
