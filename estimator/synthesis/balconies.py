"""Adds balconies to an invented floor: railed, behind a door in an outer wall."""

import math
from enum import StrEnum

import attrs
import numpy as np
from attrs import frozen
from shapely.geometry import Polygon

from estimator.measures import Metres
from estimator.plan.opening import OpeningKind, Point
from estimator.synthesis.frame import Frame
from estimator.synthesis.layouts import Gap, Layout, Ring, Space, inset
from estimator.synthesis.paper import Paper
from estimator.synthesis.styles import Style

Rng = np.random.Generator

_APART = 0.4  # metres between two balconies
_TOUCHING = 0.02  # square metres of a balcony that may lie in the wall behind it


class RailManner(StrEnum):
    """How the edge of a balcony is shown."""

    LINE = "line"
    TWO_LINES = "two lines"
    PARAPET = "parapet"
    WALL = "wall"


@frozen(kw_only=True)
class Balcony:
    """The edge of one balcony: a ring around its floor, so thick."""

    space: str
    rail: RailManner
    thick: Metres


def with_balconies(layout: Layout, rng: Rng) -> tuple[Layout, tuple[Balcony, ...]]:
    """Return the layout with up to three balconies, where an outer door or window has room."""
    balconies: list[Balcony] = []
    rail = list(RailManner)[int(rng.integers(len(RailManner)))]
    thick = float(rng.uniform(0.05, 0.18))
    gaps = [gap for gap in layout.gaps if gap.other is None and gap.width > 0.8]
    for at in rng.permutation(len(gaps))[: int(rng.integers(1, 4))].tolist():
        gap = gaps[at]
        floor = _floor(gap, rng, thick)
        if _is_free(layout, floor):
            name = f"balcony {len(balconies) + 1}"
            layout = _opened(layout, gap, floor, name, rng)
            balconies.append(Balcony(space=name, rail=rail, thick=thick))
    return layout, tuple(balconies)


def _floor(gap: Gap, rng: Rng, thick: Metres) -> Ring:
    """Return the corners of a balcony's floor before a gap: a rectangle, or a bow."""
    left, right = (float(-rng.uniform(0.0, 1.6)) for _ in range(2))
    deep = float(rng.uniform(0.9, 2.2))
    wide, near = gap.width - right - left, -gap.back - thick * 0.01
    if rng.random() < 0.8:
        places = [
            (left, near),
            (left + wide, near),
            (left + wide, near - deep),
            (left, near - deep),
        ]
    else:
        turns = np.linspace(0, math.pi, 10).tolist()
        places = [
            (left + wide * (0.5 - 0.5 * math.cos(turn)), near - deep * math.sin(turn))
            for turn in turns
        ]
    return np.array([gap.place(*place) for place in places])


def _is_free(layout: Layout, floor: Ring) -> bool:
    """Tell whether nothing is built where a balcony's floor lies."""
    place, building = Polygon(floor), Polygon(layout.outside())
    if not (place.is_valid and building.is_valid):
        return False
    others = [layout.inside(space) for space in layout.spaces if space.use == "balcony"]
    if any(Polygon(other).distance(place) < _APART for other in others):
        return False
    return place.intersection(building).area < _TOUCHING


def _opened(layout: Layout, gap: Gap, floor: Ring, name: str, rng: Rng) -> Layout:
    """Return the layout with a balcony, and the gap before it a door."""
    manner = str(rng.choice(["sliding", "sliding", "double", "leaf"]))
    door = attrs.evolve(
        gap, kind=OpeningKind.DOOR, manner=manner, sill=0.0, opens_inward=bool(rng.random() < 0.5)
    )
    corners: tuple[Point, ...] = tuple(
        (float(x), float(y)) for x, y in inset(floor, -layout.inner_wall / 2)
    )
    return attrs.evolve(
        layout,
        spaces=(*layout.spaces, Space(name=name, use="balcony", corners=corners)),
        gaps=tuple(door if one is gap else one for one in layout.gaps),
    )


def edge_of(layout: Layout, balcony: Balcony) -> Ring:
    """Return the outer corners of a balcony's rail, in metres."""
    space = next(space for space in layout.spaces if space.name == balcony.space)
    return inset(layout.inside(space), -balcony.thick)


def draw_balconies(
    paper: Paper, layout: Layout, balconies: tuple[Balcony, ...], frame: Frame, style: Style
) -> None:
    """Draw rails, before the building covers their ends."""
    for balcony in balconies:
        outer = frame.px(edge_of(layout, balcony))
        inner = frame.px(inset(edge_of(layout, balcony), balcony.thick))
        fill = style.inner.fill if balcony.rail is RailManner.WALL else style.paper
        paper.fill(outer, fill, exact=True)
        paper.fill(inner, style.floor("balcony"), exact=True)
        if balcony.rail is RailManner.LINE:
            paper.stroke([(outer + inner) / 2], style.ink, style.opening_line_px, closed=True)
        elif balcony.rail is not RailManner.WALL or style.inner.line_px:
            paper.stroke([outer, inner], style.ink, style.opening_line_px, closed=True)
