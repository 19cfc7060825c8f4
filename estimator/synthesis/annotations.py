"""Writes on the plan: room names and sizes, dimension strings, scale bar, north, title block."""

import math

import numpy as np
from attrs import frozen

from estimator.measures import Metres
from estimator.synthesis.frame import Frame
from estimator.synthesis.layouts import Layout, Ring, Space, area, within
from estimator.synthesis.lettering import extent
from estimator.synthesis.paper import Paper
from estimator.synthesis.styles import Style
from estimator.synthesis.symbols import LANDING_M

_METRES_PER_FOOT = 0.3048  # exact: international yard and pound agreement, 1959
_CROWDED = 0.05  # share of a label that may lie over furniture before it is shortened
Spot = tuple[float, float]


def length(metres: Metres, units: str) -> str:
    r"""Return a length as a draughtsman writes it.

    >>> length(3.81, "ft"), length(3.6, "m"), length(3.6, "mm"), length(3.6, "plain m")
    ('12\'-6"', '3.60 m', '3600', '3.60')
    """
    if units == "ft":
        feet, inches = divmod(round(metres / _METRES_PER_FOOT * 12), 12)
        return f"{feet}'-{inches}\""
    if units == "mm":
        return f"{round(metres * 1000)}"
    return f"{metres:.2f}" if units == "plain m" else f"{metres:.2f} m"


def size(width: Metres, depth: Metres, units: str) -> str:
    """Return a room's size as two lengths."""
    return f"{length(width, units)} x {length(depth, units)}"


def floor_area(square_metres: float, units: str) -> str:
    """Return an area in square metres or square feet."""
    if units == "ft":
        return f"{round(square_metres / _METRES_PER_FOOT**2)} sq ft"
    return f"{square_metres:.1f} m²"


def label_rooms(paper: Paper, layout: Layout, frame: Frame, style: Style) -> None:
    """Write each room's name, and its size or area beneath, where the floor is freest."""
    for space in layout.spaces:
        if not space.is_room:
            continue
        room = layout.inside(space)
        wide, deep = np.ptp(room, axis=0)
        name = space.name.upper() if style.capitals else space.name
        below = {
            "name": [],
            "name and size": [size(wide, deep, style.units)],
            "name and area": [floor_area(area(room), style.units)],
            "name, size and area": [
                size(wide, deep, style.units),
                floor_area(area(room), style.units),
            ],
        }[style.label]
        if len(room) > 4:  # a size alone would tell of more floor than there is
            below = [floor_area(area(room), style.units)] if below else []
        _write_label(paper, layout, frame, style, space, [name, *below])


def _write_label(
    paper: Paper, layout: Layout, frame: Frame, style: Style, space: Space, lines: list[str]
) -> None:
    room = frame.px(layout.inside(space))
    letter = style.letter_px
    wide, deep = np.ptp(room, axis=0)
    words = lines[0].split()
    if extent(lines[0], letter, style.font)[0] > wide - 8 and wide < deep and len(words) > 1:
        middle = math.ceil(len(words) / 2)
        lines = [" ".join(words[:middle]), " ".join(words[middle:]), *lines[1:]]
    while lines and max(extent(line, letter, style.font)[0] for line in lines) > wide - 8:
        if letter > style.letter_px * 0.72:
            letter *= 0.93
        elif len(lines) > 1:
            lines = lines[:1]
        else:
            break
    upright = extent(lines[0], letter, style.font)[0] > wide - 4 and deep > wide * 1.3
    pitch = letter * 1.3
    for kept in (lines, lines[:1]):
        width = max(extent(line, letter, style.font)[0] for line in kept) + letter * 0.6
        height = pitch * len(kept)
        box = (height, width) if upright else (width, height)
        middle_px, covered = _freest(layout, frame, space, box)
        if covered < _CROWDED:
            break
    for index, line in enumerate(kept):
        shift = (index - (len(kept) - 1) / 2) * pitch
        at = (
            (middle_px[0] + shift, middle_px[1])
            if upright
            else (middle_px[0], middle_px[1] + shift)
        )
        small = letter if index == 0 else letter * 0.86
        paper.write(line, at, small, style.ink, font=style.font, upright=upright)


def _freest(layout: Layout, frame: Frame, space: Space, box: Spot) -> tuple[Spot, float]:
    """Return where a label covers least furniture, near the room's middle, and what share of it."""
    room = frame.px(layout.inside(space))
    low, high = room.min(axis=0), room.max(axis=0)
    covered = [
        (corners.min(axis=0), corners.max(axis=0))
        for piece in layout.pieces
        if piece.room == space.name
        for corners in [frame.px(piece.footprint())]
    ]
    for gap in layout.gaps:
        if gap.manner in ("leaf", "double") and space.name == gap.swings_into:
            swing = frame.px(gap.swing())
            covered.append((swing.min(axis=0), swing.max(axis=0)))
    if space.use == "stairs":
        along = 0 if high[0] - low[0] >= high[1] - low[1] else 1
        treads = low.copy()
        treads[along] += LANDING_M * frame.px_per_m
        covered.append((treads, high))
    half = np.array(box) / 2
    best, best_cost, best_share = (low + high) / 2, math.inf, 0.0
    for x in np.linspace(low[0] + half[0] + 3, high[0] - half[0] - 3, 15):
        for y in np.linspace(low[1] + half[1] + 3, high[1] - half[1] - 3, 15):
            at = np.array([x, y])
            overlap = sum(
                float(
                    np.prod(np.clip(np.minimum(at + half, b) - np.maximum(at - half, a), 0, None))
                )
                for a, b in covered
            )
            outside = sum(
                not within(room, (at[0] + half[0] * corner[0], at[1] + half[1] * corner[1]))
                for corner in np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)])
            )
            off = float(np.hypot(*((at - (low + high) / 2) / (high - low))))
            share = overlap / float(np.prod(box))
            cost = share * 10 + off + 100 * outside
            if cost < best_cost:
                best, best_cost, best_share = at, cost, share
    return (float(best[0]), float(best[1])), best_share


@frozen(kw_only=True)
class Dimensions:
    """How dimension strings look: where they stand and how their ends are marked."""

    sides: tuple[str, ...] = ("north", "west")
    mark: str = "tick"
    first_px: float = 46.0
    step_px: float = 34.0
    letter_px: float = 15.0
    line_px: float = 1.0


def draw_dimensions(
    paper: Paper, layout: Layout, frame: Frame, style: Style, manner: Dimensions
) -> None:
    """Draw a chain of clear room widths and an overall length along each side asked for."""
    outside = layout.outside()
    low, high = outside.min(axis=0), outside.max(axis=0)
    for side in manner.sides:
        axis = 0 if side in ("north", "south") else 1
        sign = -1 if side in ("north", "west") else 1
        edge = low[1 - axis] if sign < 0 else high[1 - axis]
        stretches = _facing(layout, axis, edge, sign)
        chains = [stretches] if len(stretches) > 1 else []
        chains.append([(float(low[axis]), float(high[axis]))])
        for order, chain in enumerate(chains):
            off = sign * (manner.first_px + order * manner.step_px) / frame.px_per_m
            for start, end in chain:
                _dimension(paper, frame, style, manner, axis, edge + off, start, end)


def _facing(layout: Layout, axis: int, edge: float, sign: int) -> list[tuple[float, float]]:
    """Return the clear widths of the rooms seen first from one side of the building."""
    rooms = [layout.inside(space) for space in layout.spaces]
    spans = []
    for room in rooms:
        start, end = float(room[:, axis].min()), float(room[:, axis].max())
        near = float((room[:, 1 - axis] * sign).max())
        if edge * sign - near < layout.outer_wall + 0.02:
            spans.append((start, end))
    return sorted(spans)


def _dimension(
    paper: Paper,
    frame: Frame,
    style: Style,
    manner: Dimensions,
    axis: int,
    level: float,
    start: float,
    end: float,
) -> None:
    def at(along: float, across_px: float = 0.0) -> Ring:
        point: Ring = np.array([along, level] if axis == 0 else [level, along])
        shift = np.array([0.0, across_px] if axis == 0 else [across_px, 0.0])
        return np.asarray(frame.px(point) + shift)

    lines = [np.stack([at(start), at(end)])]
    for end_at in (start, end):
        lines.append(np.stack([at(end_at, -7), at(end_at, 7)]))
        if manner.mark == "tick":
            slash = np.array([5.0, -5.0])
            lines.append(np.stack([at(end_at) - slash, at(end_at) + slash]))
        elif manner.mark == "arrow":
            way = 1 if end_at == start else -1
            along = np.array([1.0, 0.0] if axis == 0 else [0.0, 1.0]) * way
            across = along[::-1]
            tip = at(end_at)
            lines.append(
                np.stack([tip + along * 9 + across * 3, tip, tip + along * 9 - across * 3])
            )
    paper.stroke(lines, style.ink, manner.line_px)
    text = length(end - start, style.units)
    letter = manner.letter_px
    room_px = (end - start) * frame.px_per_m
    while extent(text, letter, style.font)[0] > room_px - 6 and letter > manner.letter_px * 0.7:
        letter *= 0.93
    middle = at((start + end) / 2, -letter * 0.75)
    spot = (float(middle[0]), float(middle[1]))
    paper.write(text, spot, letter, style.ink, font=style.font, upright=axis == 1)


def draw_scale_bar(
    paper: Paper, frame: Frame, style: Style, at: Spot, *, feet: bool = False
) -> None:
    """Draw a bar of five metres, or of sixteen feet, from a point to the right."""
    unit = 4 * _METRES_PER_FOOT if feet else 1.0
    count, each = (4, 4) if feet else (5, 1)
    step, tall = unit * frame.px_per_m, 7.0
    for index in range(count):
        left, right = at[0] + index * step, at[0] + (index + 1) * step
        box = np.array([(left, at[1]), (right, at[1]), (right, at[1] + tall), (left, at[1] + tall)])
        paper.fill(box, style.ink if index % 2 == 0 else style.paper)
        paper.stroke([box], style.ink, 1.0, closed=True)
    for index in range(count + 1):
        text = f"{index * each}" + (("'" if feet else " m") if index == count else "")
        paper.write(text, (at[0] + index * step, at[1] - 11), 13, style.ink, font=style.font)


def draw_north(paper: Paper, style: Style, at: Spot, radius: float = 24.0) -> None:
    """Draw a north arrow in a circle."""
    turn = np.linspace(0, 2 * np.pi, 49)[:-1]
    circle = np.stack([np.cos(turn), np.sin(turn)], axis=1) * radius + at
    needle = np.array([(0, -0.95), (0.42, 0.7), (0, 0.4), (-0.42, 0.7)]) * radius + at
    paper.stroke([circle], style.ink, 1.2, closed=True)
    paper.fill(needle[[0, 1, 2]], style.ink)
    paper.stroke([needle], style.ink, 1.2, closed=True)
    paper.write("N", (at[0], at[1] - radius - 11), 15, style.ink, font=style.title_font)


def write_left(
    paper: Paper, text: str, at: Spot, size_px: float, style: Style, *, font: str = ""
) -> None:
    """Letter one line that begins at a point."""
    font = font or style.font
    width = extent(text, size_px, font)[0]
    paper.write(text, (at[0] + width / 2, at[1]), size_px, style.ink, font=font)


def draw_heading(paper: Paper, style: Style, at: Spot, lines: tuple[str, ...]) -> None:
    """Letter a title and smaller lines under it, centred on a point at the title."""
    x, y = at
    for index, line in enumerate(lines):
        size_px = 34 if index == 0 else 17
        font = style.title_font if index == 0 else style.font
        paper.write(line, (x, y), size_px, style.ink, font=font)
        y += 36 if index == 0 else 24


def draw_title_block(
    paper: Paper,
    style: Style,
    box: tuple[float, float, float, float],
    cells: tuple[tuple[str, str], ...],
) -> None:
    """Draw a ruled strip of cells, each a small heading over its text; the first is widest."""
    left, top, right, bottom = box
    frame = np.array([(left, top), (right, top), (right, bottom), (left, bottom)])
    paper.fill(frame, style.paper)
    paper.stroke([frame], style.ink, 1.6, closed=True)
    shares = np.array([2.2] + [1.0] * (len(cells) - 1))
    stops = left + np.concatenate([[0], np.cumsum(shares / shares.sum())]) * (right - left)
    height = bottom - top
    for index, (heading, text) in enumerate(cells):
        x = float(stops[index])
        if index:
            paper.stroke([np.array([(x, top), (x, bottom)])], style.ink, 1.0)
        write_left(paper, heading, (x + 10, top + height * 0.27), height * 0.2, style)
        letter = height * (0.34 if index == 0 else 0.29)
        font = style.title_font if index == 0 else style.font
        while extent(text, letter, font)[0] > stops[index + 1] - x - 16:
            letter *= 0.95
        write_left(paper, text, (x + 10, top + height * 0.66), letter, style, font=font)
