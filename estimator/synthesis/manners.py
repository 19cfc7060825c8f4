"""Draws a style at random from many manners, some of which are held out from training."""

from collections.abc import Callable, Mapping

import numpy as np
from attrs import frozen

from estimator.synthesis.paper import Colour
from estimator.synthesis.styles import WHITE, DoorManner, Style, WallManner, WindowManner

Rng = np.random.Generator

HELD_OUT: dict[str, tuple[str, ...]] = {
    "walls": ("cross-hatched", "coloured outline", "barred"),
    "doors": (DoorManner.FILLED, DoorManner.DASHED_ARC),
    "windows": (WindowManner.TINTED,),
    "sheet": ("blueprint", "squared paper"),
}
"""Manners that no training picture shows; a held-out picture shows at least one."""

DRY = ("bedroom", "living_room", "dining_room", "office", "closet", "classroom")
WET = ("bathroom", "toilet", "kitchen", "utility_room", "laundry", "restaurant_kitchen")


@frozen(kw_only=True)
class WallHand:
    """A way of drawing walls: ink by a generator, and how many pixels thick walls may be."""

    draw: Callable[[Rng, Colour], tuple[WallManner, WallManner | None]]
    thick_px: tuple[float, float] = (2.5, 13.0)
    weight: float = 1.0


def _filled(low: int, high: int) -> Callable[[Rng, Colour], tuple[WallManner, None]]:
    def draw(rng: Rng, _ink: Colour) -> tuple[WallManner, None]:
        return WallManner(fill=_grey(rng, low, high)), None

    return draw


def _outlined(low: int, high: int) -> Callable[[Rng, Colour], tuple[WallManner, None]]:
    def draw(rng: Rng, ink: Colour) -> tuple[WallManner, None]:
        line_px = float(rng.choice([1.0, 1.0, 1.5, 2.0]))
        return WallManner(fill=_grey(rng, low, high), line=ink, line_px=line_px), None

    return draw


def _hatched(*patterns: str) -> Callable[[Rng, Colour], tuple[WallManner, None]]:
    def draw(rng: Rng, ink: Colour) -> tuple[WallManner, None]:
        manner = WallManner(
            fill=WHITE,
            line=ink,
            line_px=float(rng.choice([1.0, 1.5])),
            hatch=str(rng.choice(patterns)),
            hatch_px=float(rng.uniform(3.5, 8)),
        )
        return manner, None

    return draw


def _coloured(rng: Rng, _ink: Colour) -> tuple[WallManner, None]:
    return WallManner(fill=_colour(rng, 40, 190)), None


def _coloured_outline(rng: Rng, _ink: Colour) -> tuple[WallManner, None]:
    return WallManner(fill=WHITE, line=_colour(rng, 30, 160), line_px=1.5), None


def _two_toned(rng: Rng, ink: Colour) -> tuple[WallManner, WallManner]:
    inner = WallManner(fill=_grey(rng, 110, 215), line=ink, line_px=float(rng.choice([0.0, 1.0])))
    return inner, WallManner(fill=_grey(rng, 0, 70))


def _solid_and_hollow(rng: Rng, ink: Colour) -> tuple[WallManner, WallManner]:
    return WallManner(fill=WHITE, line=ink, line_px=1.0), WallManner(fill=_grey(rng, 0, 90))


WALLS: dict[str, WallHand] = {
    "black": WallHand(draw=_filled(0, 35), weight=3.0),
    "dark": WallHand(draw=_filled(35, 95), weight=1.5),
    "grey": WallHand(draw=_filled(95, 175)),
    "pale": WallHand(draw=_filled(175, 205), weight=0.3),
    "grey outlined": WallHand(draw=_outlined(120, 235)),
    "hollow": WallHand(draw=_outlined(255, 255), thick_px=(3.0, 13.0), weight=3.0),
    "hatched": WallHand(draw=_hatched("diagonal", "backward"), thick_px=(5.0, 15.0)),
    "coloured": WallHand(draw=_coloured, weight=1.3),
    "two tones": WallHand(draw=_two_toned),
    "solid and hollow": WallHand(draw=_solid_and_hollow, thick_px=(3.5, 11.0), weight=1.2),
    "fine": WallHand(draw=_filled(0, 80), thick_px=(1.2, 2.5), weight=2.2),
    "cross-hatched": WallHand(draw=_hatched("cross"), thick_px=(5.0, 15.0)),
    "coloured outline": WallHand(draw=_coloured_outline, thick_px=(3.5, 11.0)),
    "barred": WallHand(draw=_hatched("level", "upright"), thick_px=(5.0, 15.0)),
}

DOOR_WEIGHTS: dict[str, float] = {
    DoorManner.LEAF_AND_ARC: 2.0,
    DoorManner.THIN_LEAF_AND_ARC: 4.0,
    DoorManner.BARE_LEAF: 1.2,
    DoorManner.GAP: 0.8,
    DoorManner.BARE_ARC: 0.6,
    DoorManner.CLOSED: 0.5,
    DoorManner.PANEL: 0.5,
    DoorManner.HALF_OPEN: 0.8,
    DoorManner.AJAR: 0.5,
    DoorManner.FILLED: 1.0,
    DoorManner.DASHED_ARC: 1.0,
}

CLOSET_DOOR_WEIGHTS: dict[str, float] = {
    DoorManner.HALF_OPEN: 3.0,
    DoorManner.AJAR: 1.5,
    DoorManner.THIN_LEAF_AND_ARC: 2.0,
    DoorManner.LEAF_AND_ARC: 1.0,
    DoorManner.BARE_LEAF: 1.0,
    DoorManner.CLOSED: 0.5,
    DoorManner.GAP: 0.5,
}

WINDOW_WEIGHTS: dict[str, float] = {
    WindowManner.TWO_LINES: 2.5,
    WindowManner.THREE_LINES: 2.5,
    WindowManner.BOX: 1.5,
    WindowManner.BAR: 0.8,
    WindowManner.TINTED: 1.0,
    WindowManner.SILL: 0.8,
    WindowManner.GAP: 0.5,
    WindowManner.FOUR_LINES: 1.0,
}

SHEETS = {
    "plain": 10.0,
    "negative": 0.5,
    "toned": 0.8,
    "dark surround": 1.0,
    "blueprint": 1.0,
    "squared paper": 1.0,
}


def style_names(*, held_out: bool) -> tuple[str, ...]:
    """Return the manners of walls, doors, windows and sheets that a picture may show."""
    known = {
        "walls": tuple(WALLS),
        "doors": tuple(DOOR_WEIGHTS),
        "windows": tuple(WINDOW_WEIGHTS),
        "sheet": tuple(SHEETS),
    }
    return tuple(
        f"{aspect}: {name}"
        for aspect, names in known.items()
        for name in names
        if (name in HELD_OUT[aspect]) == held_out
    )


@frozen(kw_only=True)
class Manner:
    """All that is decided about a picture's look before anything is drawn."""

    style: Style
    thick_px: tuple[float, float]
    sheet: str


def drawn_at_random(rng: Rng, *, held_out: bool) -> Manner:
    """Return a manner: of those held out at least one when ``held_out``, else none of them."""
    aspects = set(HELD_OUT)
    held = {aspect for aspect in sorted(aspects) if held_out and rng.random() < 0.5}
    if held_out and not held:
        held = {"walls"}
    walls = _picked(rng, {name: w.weight for name, w in WALLS.items()}, "walls", held)
    doors = DoorManner(_picked(rng, DOOR_WEIGHTS, "doors", held))
    windows = WindowManner(_picked(rng, WINDOW_WEIGHTS, "windows", held))
    sheet = _picked(rng, SHEETS, "sheet", held)
    other_doors = DoorManner(_picked(rng, DOOR_WEIGHTS, "doors", set()))
    closet_doors = DoorManner(_picked(rng, CLOSET_DOOR_WEIGHTS, "doors", set()))
    ink = _grey(rng, 0, 70) if rng.random() < 0.9 else _colour(rng, 0, 110)
    inner, outer = WALLS[walls].draw(rng, ink)
    paper = WHITE if rng.random() < 0.8 or sum(inner.fill) > 420 else _tint(rng)
    furniture_line = _grey(rng, 30, 190) if rng.random() < 0.85 else _colour(rng, 60, 180)
    style = Style(
        name=f"{walls}, {doors}, {windows}, {sheet}",
        paper=paper,
        ink=ink,
        inner=inner,
        outer=outer,
        doors=doors,
        second_doors=other_doors if rng.random() < 0.15 else None,
        closet_doors=closet_doors if rng.random() < 0.6 else None,
        half_open=float(rng.uniform(25, 75)),
        leaf=float(rng.choice([1.0, 1.2, 1.2, 2.0, 3.0])),
        arc=_arc(rng),
        window_reach=float(rng.uniform(0.3, 0.7)) if rng.random() < 0.3 else 1.0,
        variant=int(rng.integers(60)),
        windows=windows,
        opening_line_px=float(rng.choice([1.0, 1.0, 1.5, 2.0, 2.5])),
        has_thresholds=bool(rng.random() < 0.12),
        glass=_tint(rng),
        shaft=_shaft(rng, outer or inner),
        floors=_floors(rng, paper),
        textures=_textures(rng),
        texture_shade=float(rng.uniform(0.45, 0.95)),
        furniture_fill=(WHITE, None, _tint(rng))[int(rng.integers(3))],
        furniture_line=furniture_line,
        furniture_line_px=float(rng.choice([1.0, 1.0, 1.0, 1.5, 2.0])),
        font=str(rng.choice(["plain", "sans", "sans", "bold", "italic"])),
        title_font=str(rng.choice(["plain", "bold", "sans"])),
        letter_px=float(rng.uniform(8, 15 if rng.random() < 0.8 else 24)),
        capitals=bool(rng.random() < 0.4),
        units=str(rng.choice(["m", "plain m", "mm", "ft"])),
    )
    return Manner(style=style, thick_px=WALLS[walls].thick_px, sheet=sheet)


def _picked(rng: Rng, weights: Mapping[str, float], aspect: str, held: set[str]) -> str:
    """Return a name by weight, held out or not as its aspect is."""
    names = [name for name in weights if (name in HELD_OUT[aspect]) == (aspect in held)]
    shares = np.array([weights[name] for name in names])
    return names[int(rng.choice(len(names), p=shares / shares.sum()))]


def _arc(rng: Rng) -> tuple[float, float]:
    """Return the part of a leaf's arc that is drawn: all, or a stretch near its end."""
    return (0.0, 1.0) if rng.random() < 0.85 else (float(rng.uniform(0.2, 0.6)), 1.0)


def _floors(rng: Rng, paper: Colour) -> dict[str, Colour]:
    """Return colours of floors: none, one for all, or by use."""
    uses = (*DRY, *WET, "hall", "corridor", "stairs", "exam_room", "meeting_room", "open_office")
    chance = rng.random()
    if chance < 0.55:
        return {}
    if chance < 0.68:
        return dict.fromkeys(uses, _tint(rng))
    if chance < 0.8:
        few = rng.random(len(uses)) < 0.3
        return {use: _tint(rng) for use, is_one in zip(uses, few, strict=True) if is_one}
    deep = rng.random() < 0.3
    return {use: _colour(rng, 90, 250) if deep else _tint(rng) for use in uses} | {
        "hall": paper if rng.random() < 0.3 else _tint(rng)
    }


def _shaft(rng: Rng, walls: WallManner) -> Colour | None:
    chance = rng.random()
    if chance < 0.45:
        return walls.fill if sum(walls.fill) < 600 else walls.line
    return _grey(rng, 0, 230) if chance < 0.65 else None


def _textures(rng: Rng) -> dict[str, str]:
    """Return floor textures of some uses."""
    if rng.random() < 0.6:
        return {}
    chosen: dict[str, str] = {}
    if rng.random() < 0.6:
        chosen |= dict.fromkeys(DRY, str(rng.choice(["boards", "boards", "hatch", "tiles"])))
    if rng.random() < 0.7:
        chosen |= dict.fromkeys(WET, str(rng.choice(["tiles", "small tiles", "hatch"])))
    return chosen


def _grey(rng: Rng, low: int, high: int) -> Colour:
    light = int(rng.integers(low, high + 1))
    red, green, blue = (int(np.clip(light + cast, 0, 255)) for cast in rng.integers(-4, 5, 3))
    return red, green, blue


def _colour(rng: Rng, low: int, high: int) -> Colour:
    red, green, blue = (int(part) for part in rng.integers(low, high + 1, 3))
    return red, green, blue


def _tint(rng: Rng) -> Colour:
    red, green, blue = (int(part) for part in rng.integers(205, 256, 3))
    return red, green, blue
