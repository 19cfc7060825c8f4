"""Furniture that belongs together, laid out before a wall: a desk with its chair, a set table."""

from collections.abc import Iterable
from functools import cache

from attrs import frozen

from estimator.measures import Metres
from estimator.synthesis.symbols import symbols

Item = tuple[str, float, float, float]
"""Kind, place along the wall from the group's middle, place from the wall, turn in degrees."""


@frozen(kw_only=True)
class Group:
    """Pieces that belong together, with the room they need before a wall: width and depth."""

    items: tuple[Item, ...]
    width: Metres
    depth: Metres
    tall: bool = False


def group(
    items: Iterable[Item], *, spare: Metres = 0.0, front: Metres = 0.0, tall: bool = False
) -> Group:
    """Return a group that needs the room its items cover, and so much more aside and in front."""
    items = tuple(items)
    reach, depth = 0.0, 0.0
    for kind, x, y, turn in items:
        symbol = symbols()[kind]
        wide, deep = (
            (symbol.width, symbol.depth) if turn % 180 == 0 else (symbol.depth, symbol.width)
        )
        reach, depth = max(reach, abs(x) + wide / 2), max(depth, y + deep / 2)
    return Group(items=items, width=2 * (reach + spare), depth=depth + front, tall=tall)


@cache
def one(kind: str, *, front: Metres = 0.0, tall: bool = False) -> Group:
    """Return one piece with its back at the wall."""
    return group([(kind, 0.0, symbols()[kind].depth / 2, 0)], front=front, tall=tall)


@cache
def row(*kinds: str, front: Metres = 0.6, tall: bool = False) -> Group:
    """Return pieces side by side along a wall."""
    total = sum(symbols()[kind].width for kind in kinds)
    items, x = [], -total / 2
    for kind in kinds:
        symbol = symbols()[kind]
        items.append((kind, x + symbol.width / 2, symbol.depth / 2, 0.0))
        x += symbol.width
    return group(items, front=front, tall=tall)


@cache
def table(kind: str, chair: str, *, sides: int, ends: bool = False, clear: Metres = 0.35) -> Group:
    """Return a table with so many chairs along each side, standing free."""
    symbol, seat = symbols()[kind], symbols()[chair]
    tuck = seat.depth / 2 - 0.14
    middle = clear + 2 * tuck + symbol.depth / 2
    items: list[Item] = []
    for index in range(sides):
        x = ((index + 0.5) / sides - 0.5) * symbol.width * 0.94
        items += [
            (chair, x, middle - symbol.depth / 2 - tuck, 0.0),
            (chair, x, middle + symbol.depth / 2 + tuck, 180.0),
        ]
    if ends:
        x = symbol.width / 2 + tuck
        items += [(chair, -x, middle, -90.0), (chair, x, middle, 90.0)]
    return group([*items, (kind, 0.0, middle, 0.0)], spare=clear, front=clear)
