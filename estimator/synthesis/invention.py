"""Invents floor layouts: a footprint divided into rooms, with uses, doors and windows."""

import itertools

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from estimator.measures import Metres
from estimator.synthesis.grids import OUTSIDE, Lines, Untraceable, outline, runs
from estimator.synthesis.layouts import Layout, Space
from estimator.synthesis.partition import Brief, Division, divided
from estimator.synthesis.piercing import Piercing

Rng = np.random.Generator


@frozen(kw_only=True)
class Kind:
    """A kind of building: its size in metres, the size of its rooms and what they are for.

    Parameters
    ----------
    share
        How often it is drawn, beside the others.
    """

    side: tuple[Metres, Metres]
    room: tuple[float, float]
    module: Metres
    corridor: tuple[Metres, Metres] | None
    bays: bool
    closets: float
    uses: tuple[str, ...]
    hall: str
    high: Metres
    share: float = 1.0


KINDS = {
    "flat": Kind(
        side=(5.5, 11.0),
        room=(3.0, 20.0),
        module=0.3,
        corridor=(0.9, 1.5),
        bays=False,
        closets=0.45,
        uses=("bathroom", "kitchen", "bedroom", "living_room", "dining_room"),
        hall="hall",
        high=2.5,
        share=2.5,
    ),
    "open flat": Kind(
        side=(5.0, 10.0),
        room=(6.0, 30.0),
        module=0.3,
        corridor=None,
        bays=False,
        closets=0.5,
        uses=("bathroom", "closet", "bedroom", "living_room", "kitchen"),
        hall="hall",
        high=2.5,
    ),
    "house": Kind(
        side=(8.0, 18.0),
        room=(4.0, 26.0),
        module=0.3,
        corridor=(1.0, 1.8),
        bays=False,
        closets=0.45,
        uses=("toilet", "utility_room", "bathroom", "kitchen", "bedroom", "living_room"),
        hall="hall",
        high=2.5,
        share=2.0,
    ),
    "office": Kind(
        side=(14.0, 34.0),
        room=(8.0, 40.0),
        module=0.5,
        corridor=(1.4, 2.4),
        bays=True,
        closets=0.05,
        uses=("toilet", "storage", "office", "office", "meeting_room", "open_office"),
        hall="corridor",
        high=2.8,
    ),
    "school": Kind(
        side=(20.0, 44.0),
        room=(20.0, 75.0),
        module=0.6,
        corridor=(1.8, 3.2),
        bays=True,
        closets=0.1,
        uses=("toilet", "storage", "staff_room", "classroom", "classroom"),
        hall="corridor",
        high=3.0,
    ),
    "clinic": Kind(
        side=(12.0, 28.0),
        room=(7.0, 22.0),
        module=0.4,
        corridor=(1.4, 2.4),
        bays=True,
        closets=0.1,
        uses=("toilet", "storage", "exam_room", "exam_room", "office", "waiting_room"),
        hall="corridor",
        high=2.7,
    ),
    "hall": Kind(
        side=(9.0, 26.0),
        room=(14.0, 160.0),
        module=0.5,
        corridor=None,
        bays=False,
        closets=0.1,
        uses=("toilet", "storage", "restaurant_kitchen", "restaurant_dining", "shop_floor"),
        hall="lobby",
        high=3.2,
    ),
}


def invented(rng: Rng, kind: Kind, *, thick_px: tuple[float, float], room_px: float) -> Layout:
    """Return a layout whose walls will be about so thick when it is drawn so large.

    A division that is no building is thrown away, and walls grow thinner with every failure.
    """
    for failures in itertools.count():
        brief = _brief(rng, kind)
        px_per_m = room_px / (max(brief.width, brief.depth) * kind.module)
        walls = _walls(rng, thick_px, px_per_m * (1 + failures / 4))
        try:
            layout = _built(divided(brief, rng), kind, rng, walls)
        except Untraceable:
            continue
        if layout.is_sound:
            break
    return layout


def _brief(rng: Rng, kind: Kind) -> Brief:
    long = rng.uniform(*kind.side)
    short = max(long * rng.uniform(0.45, 1.0), kind.side[0] * 0.7)
    cell = kind.module**2
    return Brief(
        width=round(long / kind.module),
        depth=round(short / kind.module),
        room=(max(20, round(kind.room[0] / cell)), max(40, round(kind.room[1] / cell))),
        corridor=max(3, round(rng.uniform(*kind.corridor) / kind.module)) if kind.corridor else 0,
        bays=kind.bays and rng.random() < 0.8,
        closets=kind.closets * float(rng.choice([0, 1, 2, 2])),
    )


def _walls(rng: Rng, thick_px: tuple[float, float], px_per_m: float) -> tuple[Metres, Metres]:
    """Return the thickness of inner and outer walls."""
    least, most = thick_px[0] / px_per_m, thick_px[1] / px_per_m
    inner = float(np.clip(rng.uniform(0.07, 0.22), least, most))
    if rng.random() < 0.3:
        return inner, inner
    return inner, max(inner, float(np.clip(rng.uniform(0.15, 0.5), least, most)))


def _built(division: Division, kind: Kind, rng: Rng, walls: tuple[Metres, Metres]) -> Layout:
    cells = division.cells
    lines = Lines(_stops(cells.shape[1], kind, rng), _stops(cells.shape[0], kind, rng))
    footprint = outline(cells != OUTSIDE, lines)
    numbers = [number for number in np.unique(cells).tolist() if number != OUTSIDE]
    uses = _uses(cells, division, numbers, kind, rng)
    inner, outer = walls
    spaces = tuple(
        Space(
            name=str(number),
            use=uses[number],
            corners=outline(cells == number, lines),
            height=kind.high,
            is_room=uses[number] != "shaft",
        )
        for number in numbers
    )
    return Layout(
        title="",
        spaces=spaces,
        footprint=footprint,
        gaps=Piercing(rng, uses, inner, outer).gaps(list(runs(cells, lines)), division.corridors),
        inner_wall=inner,
        outer_wall=outer,
    )


def _stops(count: int, kind: Kind, rng: Rng) -> tuple[Metres, ...]:
    """Return where cells begin and end, not quite evenly."""
    steps = kind.module * rng.uniform(0.85, 1.15, count)
    return (0.0, *np.cumsum(steps).round(3).tolist())


def _uses(
    cells: NDArray[np.int32], division: Division, numbers: list[int], kind: Kind, rng: Rng
) -> dict[int, str]:
    """Return a use for every room; the smaller a room, the earlier its use stands in the list."""
    uses = dict.fromkeys(division.corridors, kind.hall)
    uses |= dict.fromkeys(division.closets, "closet")
    others = [number for number in numbers if number not in uses]
    others.sort(key=lambda number: int(np.count_nonzero(cells == number)))
    for order, number in enumerate(others):
        share = (order + rng.uniform(-0.7, 1.7)) / max(1, len(others))
        uses[number] = kind.uses[int(np.clip(share * len(kind.uses), 0, len(kind.uses) - 1))]
        if order < len(others) / 2 and rng.random() < 0.14:
            uses[number] = str(rng.choice(["shaft", "stairs", "stairs"]))
    return uses
