"""Endless training plans: picture number N is the same whoever draws it, wherever.

The order is layout, labels, style, annotation, warp, wear. A picture shows one building or a few,
of any kind, in any manner that is not held out; or, when asked for, at least one that is.
"""

import numpy as np
from attrs import evolve, frozen

from estimator.measures import SquareMetres
from estimator.synthesis import bending
from estimator.synthesis.balconies import Balcony, draw_balconies, edge_of, with_balconies
from estimator.synthesis.flights import with_flights
from estimator.synthesis.frame import Frame
from estimator.synthesis.furnishing import furnished
from estimator.synthesis.hand import Hand
from estimator.synthesis.invention import KINDS, invented
from estimator.synthesis.labels import Instances, Labels, Truth
from estimator.synthesis.layouts import Layout, area
from estimator.synthesis.manners import Manner, drawn_at_random
from estimator.synthesis.margins import Box, Margins
from estimator.synthesis.masonry import with_bays, with_blocks
from estimator.synthesis.notes import Notes
from estimator.synthesis.paper import Colour, Paper, Picture, Pixels
from estimator.synthesis.plans import draw_plan
from estimator.synthesis.recipes import RECIPES
from estimator.synthesis.rendering import rendered
from estimator.synthesis.styles import Style
from estimator.synthesis.surroundings import Ground
from estimator.synthesis.watermarks import watermarked
from estimator.synthesis.wear import Wear, toned

Rng = np.random.Generator

FAMILIES = ("clean", "brochure or scan", "photo or sketch")

_TRIES = 8
_CLEAN = 0.2  # hardness of wear below which a drawing looks as it came from the computer
_HARDNESS = (0.0, 0.15, 0.3, 0.6, 1.0)
_SHARES = (0.35, 0.25, 0.2, 0.12, 0.08)
_USUAL_PX = 640  # side of a sheet that the manners' thicknesses of walls are meant for
_FINE_PX = 2.5
_LEAST_FURNISHED = 12.0  # pixels a metre below which nobody draws furniture
# Nobody draws openings, nor furniture, with a pen broader than this, but for the finest.
_OPENING_PEN_M, _FURNITURE_PEN_M, _FINEST_PX = 0.1, 0.07, 1.0


@frozen(kw_only=True)
class Drawing:
    """A drawn plan with its answer.

    Parameters
    ----------
    pixels
        The picture.
    labels, instances, contents
        What each pixel shows, which room it lies in, and what stands there.
    areas
        Floor of each room, that of room 1 first, as laid out before any warp.
    style
        The manners it is drawn in, in words.
    family
        One of ``FAMILIES``: how hard such a picture is to read.
    """

    pixels: Picture
    labels: Labels
    instances: Instances
    contents: Labels
    areas: tuple[SquareMetres, ...]
    style: str
    family: str


def drawn(seed: int, *, side_px: int = 512, held_out: bool = False) -> Drawing:
    """Return the drawing of a number, a square of so many pixels.

    ``held_out`` draws it in manners that no other drawing shows.
    """
    rng = np.random.default_rng((seed, int(held_out)))
    way = _Way.decided(rng, held_out=held_out)
    manner, wear, by_hand = way.manner, way.wear, way.by_hand
    pixels = Pixels.blank(side_px, side_px, way.surround)
    truth = Truth.blank(side_px, side_px)
    paper: Paper = Hand(paper=pixels, rng=rng, sway_px=0.7, overrun_px=3) if by_hand else pixels
    boxes, free = _parted(rng, side_px)
    areas: list[SquareMetres] = []
    for box in boxes:
        layout, balconies, frame = _building(rng, manner, box, side_px)
        style = _pen_for(manner.style, frame)
        Ground(paper=paper, layout=layout, frame=frame, style=style, rng=rng).draw()
        draw_balconies(paper, layout, balconies, frame, style)
        draw_plan(paper, layout, frame, style)
        truth.add(layout, frame, balconies, solid_shafts=style.shaft is not None)
        truth.add_contents(layout, frame, style)
        areas += [area(layout.inside(space)) for space in layout.spaces if space.is_room]
        Notes(paper=paper, style=style, rng=rng).write(layout, frame)
    Margins(paper=paper, style=manner.style, rng=rng, side_px=side_px).write(free)
    picture = pixels.finished()
    if way.rendered:
        picture = rendered(picture, truth.labels, rng)
    picture = _finished(picture, manner, rng)
    if way.watermarked:
        picture = watermarked(picture, rng)
    if by_hand or rng.random() < 0.06:
        picture, truth = wear.tremble(picture, truth)
    if way.photographed:
        picture, truth = wear.photograph(picture, truth)
    else:
        picture, truth = wear.warp(picture, truth)
    return Drawing(
        pixels=wear.spoil(picture),
        labels=truth.labels,
        instances=truth.instances,
        contents=truth.contents,
        areas=tuple(areas),
        style=manner.style.name,
        family=way.family,
    )


@frozen(kw_only=True)
class _Way:
    """All that is decided of a drawing before its building is."""

    manner: Manner
    surround: Colour
    wear: Wear
    by_hand: bool
    photographed: bool
    rendered: bool
    watermarked: bool

    @classmethod
    def decided(cls, rng: Rng, *, held_out: bool) -> "_Way":
        manner = drawn_at_random(rng, held_out=held_out)
        surround = _surround(rng, manner)
        wear = Wear(rng=rng, hardness=_HARDNESS[int(rng.choice(5, p=_SHARES))])
        by_hand = bool(rng.random() < 0.13)
        return cls(
            manner=manner,
            surround=surround,
            wear=wear,
            by_hand=by_hand,
            photographed=bool(rng.random() < 0.13),
            rendered=manner.sheet == "plain" and not by_hand and bool(rng.random() < 0.1),
            watermarked=bool(rng.random() < 0.05),
        )

    @property
    def family(self) -> str:
        if self.by_hand or self.photographed:
            return "photo or sketch"
        style = self.manner.style
        solid = not any(one and (one.hatch or one.line_px) for one in (style.inner, style.outer))
        coloured = style.floors or style.textures or self.rendered or self.watermarked
        plain = self.manner.sheet == "plain" and not coloured
        return "clean" if solid and plain and self.wear.hardness < _CLEAN else "brochure or scan"


def family(seed: int, *, held_out: bool = False) -> str:
    """Return the family of the drawing of a number, without drawing it."""
    rng = np.random.default_rng((seed, int(held_out)))
    return _Way.decided(rng, held_out=held_out).family


def _surround(rng: Rng, manner: Manner) -> Colour:
    """Return the colour of the sheet about the buildings."""
    if manner.sheet != "dark surround":
        return manner.style.paper
    light = int(rng.integers(0, 190))
    return light, light, light


def _parted(rng: Rng, side_px: int) -> tuple[list[Box], list[Box]]:
    """Return boxes for buildings, and the strips of paper about them."""
    tight = rng.random() < 0.3
    left, top, right, bottom = rng.uniform(0.02, 0.06 if tight else 0.22, 4) * side_px
    right, bottom = side_px - right, side_px - bottom
    free = [
        (left, 4.0, right, top - 6),
        (left, bottom + 6, right, side_px - 4.0),
        (4.0, top, left - 6, bottom),
        (right + 6, top, side_px - 4.0, bottom),
    ]
    if rng.random() < 0.88:
        return [(left, top, right, bottom)], free
    cut = rng.uniform(0.4, 0.6)
    if rng.random() < 0.5:
        middle = left + (right - left) * cut
        boxes = [(left, top, middle - 10, bottom), (middle + 10, top, right, bottom)]
    else:
        middle = top + (bottom - top) * cut
        boxes = [(left, top, right, middle - 10), (left, middle + 10, right, bottom)]
    return boxes, free


def _building(
    rng: Rng, manner: Manner, box: Box, side_px: int
) -> tuple[Layout, tuple[Balcony, ...], Frame]:
    """Return a building with its balconies, and where it lies in its box."""
    least, most = manner.thick_px
    if side_px > _USUAL_PX and most > _FINE_PX:  # on large sheets, walls but for fine ones grow
        most *= side_px / _USUAL_PX
    shares = np.array([kind.share for kind in KINDS.values()])
    kind = list(KINDS.values())[int(rng.choice(len(KINDS), p=shares / shares.sum()))]
    left, top, right, bottom = box
    room_px = min(right - left, bottom - top)
    layout = invented(rng, kind, thick_px=(least, most), room_px=room_px)
    if rng.random() < 0.2:
        layout = with_blocks(layout, rng)
    if room_px / kind.side[1] > _LEAST_FURNISHED:
        recipes = RECIPES if rng.random() < 0.75 else {}
        recipes = with_flights(recipes, rng) if rng.random() < 0.4 else recipes
        layout = furnished(layout, rng, recipes, tries=_TRIES)
    bent = _off_square(layout, rng)
    layout = bent if bent.is_sound else layout
    balconies: tuple[Balcony, ...] = ()
    if rng.random() < 0.22:
        layout, balconies = with_balconies(layout, rng)
    ring = np.concatenate([layout.outside(), *(edge_of(layout, balcony) for balcony in balconies)])
    low, high = ring.min(axis=0), ring.max(axis=0)
    wide, deep = high - low
    px_per_m = min((right - left) / wide, (bottom - top) / deep)
    at = (
        (left + right - wide * px_per_m) / 2 - low[0] * px_per_m,
        (top + bottom - deep * px_per_m) / 2 - low[1] * px_per_m,
    )
    return layout, balconies, Frame(float(px_per_m), float(at[0]), float(at[1]))


def _pen_for(style: Style, frame: Frame) -> Style:
    """Return the style with pens no broader than the scale of a building allows."""
    return evolve(
        style,
        opening_line_px=_pen(style.opening_line_px, _OPENING_PEN_M * frame.px_per_m),
        furniture_line_px=_pen(style.furniture_line_px, _FURNITURE_PEN_M * frame.px_per_m),
    )


def _pen(wanted_px: float, most_px: float) -> float:
    return min(wanted_px, max(_FINEST_PX, most_px))


def _off_square(layout: Layout, rng: Rng) -> Layout:
    """Return the layout as it is, most often, or off the square in one of many ways."""
    if rng.random() < 0.12:
        layout = with_bays(layout, rng)
    if rng.random() < 0.16:
        layout = bending.partitioned(layout, rng)
    way = rng.random()
    if way < 0.12:
        layout = bending.chamfered(layout, rng)
    elif way < 0.2:
        layout = bending.bent(layout, bending.tapered(layout, rng))
    elif way < 0.25:
        layout = bending.bent(layout, bending.rounded(layout, rng), longest=0.6)
    elif way < 0.29:
        layout = bending.in_a_circle(layout)
    if rng.random() < 0.08:
        layout = bending.bent(layout, bending.turned(float(rng.choice([45, rng.uniform(-45, 45)]))))
    return layout


def _finished(picture: Picture, manner: Manner, rng: Rng) -> Picture:
    """Return the picture on its kind of sheet."""
    if manner.sheet == "negative":
        return np.asarray(255 - picture, np.uint8)
    if manner.sheet == "toned":
        return toned(picture, rng)
    if manner.sheet == "blueprint":
        ink = 1 - picture.min(axis=2, keepdims=True).astype(np.float32) / 255
        blue = np.array((38, 72, 140), np.float32)
        return np.asarray(blue + (np.array((235, 240, 250), np.float32) - blue) * ink).astype(
            np.uint8
        )
    if manner.sheet == "squared paper":
        pad = np.full_like(picture, 255)
        pad[::14] = pad[:, ::14] = (200, 218, 236)
        return np.minimum(picture, pad)
    return picture
