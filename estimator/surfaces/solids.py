"""Solids on a footprint: the faces they add to a room and what they hide of it.

A piece of furniture is a few solids over one footprint. The length runs along the wall behind it
and the depth out from the wall. For a rectangle of length l and depth w:

box        top lw, sides 2(l + w)h, and the underside lw unless it stands on the floor
slab       top and underside 2lw, edge 2(l + w)t
legs       four sides of each
shelves    top and underside of each
panel      both faces of an upright sheet along the length or the depth, with its edges
steps      treads lw and risers lw × riser ÷ going, standing on lw

For any other footprint lw is its area and 2(l + w) its perimeter.

>>> desk = Footprint(area=1.5 * 0.75, perimeter=2 * (1.5 + 0.75), length=1.5, depth=0.75)
>>> round(Slab(thickness=0.025, base=0.7).faces(desk).area, 4)
2.3625
"""

import math
from enum import StrEnum
from typing import Self

import shapely
from attrs import evolve, frozen
from shapely.geometry import Polygon

from estimator.measures import Metres, Share, SquareMetres, checked


@frozen(kw_only=True, field_transformer=checked, cache_hash=True)
class Footprint:
    """The outline of a piece on the floor, by its measures."""

    area: SquareMetres
    perimeter: Metres
    length: Metres
    depth: Metres

    @classmethod
    def rectangle(cls, length: Metres, depth: Metres) -> Self:
        """Return the footprint of a rectangle."""
        return cls(area=length * depth, perimeter=2 * (length + depth), length=length, depth=depth)

    @classmethod
    def drawn(cls, outline: Polygon) -> Self:
        """Return the footprint of a drawn outline, the longer side of the box around it first."""
        first, second, third, *_ = shapely.get_coordinates(shapely.oriented_envelope(outline))
        depth, length = sorted((math.dist(first, second), math.dist(second, third)))
        return cls(area=outline.area, perimeter=outline.length, length=length, depth=depth)

    @property
    def turned(self) -> Self:
        """The same with its depth along the wall."""
        return evolve(self, length=self.depth, depth=self.length)

    def part(self, length: Share, depth: Share) -> Self:
        """Return the footprint of a solid that takes up only a share of the length and depth."""
        if length == depth == 1.0:
            return self
        cut = 2 * (self.length * (1.0 - length) + self.depth * (1.0 - depth))
        return type(self)(
            area=self.area * length * depth,
            perimeter=max(0.0, self.perimeter - cut),
            length=self.length * length,
            depth=self.depth * depth,
        )


@frozen(kw_only=True, field_transformer=checked)
class Faces:
    """The faces of a solid, by how they lie, and the floor it stands on."""

    top: SquareMetres = 0.0
    sides: SquareMetres = 0.0
    underside: SquareMetres = 0.0
    stands_on: SquareMetres = 0.0

    @property
    def area(self) -> SquareMetres:
        """All faces that are not on the floor."""
        return self.top + self.sides + self.underside

    def __add__(self, other: "Faces") -> "Faces":
        return Faces(
            top=self.top + other.top,
            sides=self.sides + other.sides,
            underside=self.underside + other.underside,
            stands_on=self.stands_on + other.stands_on,
        )


class Run(StrEnum):
    """Which way an upright sheet runs."""

    LENGTH = "length"
    DEPTH = "depth"


@frozen(kw_only=True, field_transformer=checked)
class Box:
    """A closed block; with a base of 0 it stands on the floor.

    Parameters
    ----------
    base
        Height of its underside above the floor.
    length, depth
        Share of the footprint's length and depth it takes up.
    """

    height: Metres
    base: Metres = 0.0
    length: Share = 1.0
    depth: Share = 1.0

    @property
    def top(self) -> Metres:
        """Height of its top above the floor."""
        return self.base + self.height

    def faces(self, footprint: Footprint) -> Faces:
        """Return top and sides, and the underside or the floor it stands on."""
        own = footprint.part(self.length, self.depth)
        stands = self.base == 0.0
        return Faces(
            top=own.area,
            sides=own.perimeter * self.height,
            underside=0.0 if stands else own.area,
            stands_on=own.area if stands else 0.0,
        )


@frozen(kw_only=True, field_transformer=checked)
class Slab:
    """A flat board: the top of a table, the seat of a chair."""

    thickness: Metres
    base: Metres
    length: Share = 1.0
    depth: Share = 1.0

    @property
    def top(self) -> Metres:
        """Height of its top above the floor."""
        return self.base + self.thickness

    def faces(self, footprint: Footprint) -> Faces:
        """Return top, edge and underside."""
        own = footprint.part(self.length, self.depth)
        return Faces(top=own.area, sides=own.perimeter * self.thickness, underside=own.area)


@frozen(kw_only=True, field_transformer=checked)
class Legs:
    """Square legs or posts standing on the floor; ``side`` is the width of one face."""

    count: int
    side: Metres
    height: Metres

    def faces(self, footprint: Footprint) -> Faces:  # noqa: ARG002 - legs are the same under all
        """Return the four sides of each leg."""
        return Faces(
            sides=self.count * 4 * self.side * self.height,
            stands_on=self.count * self.side * self.side,
        )


@frozen(kw_only=True, field_transformer=checked)
class Shelves:
    """Boards inside or between other solids, of the whole footprint each."""

    count: int

    def faces(self, footprint: Footprint) -> Faces:
        """Return top and underside of every board."""
        area = self.count * footprint.area
        return Faces(top=area, underside=area)


@frozen(kw_only=True, field_transformer=checked)
class Panel:
    """Upright sheets of the whole length or depth: backs of chairs, screens, inner sides."""

    height: Metres
    thickness: Metres
    base: Metres = 0.0
    run: Run = Run.LENGTH
    count: int = 1

    def faces(self, footprint: Footprint) -> Faces:
        """Return both faces, both ends, and the upper edge."""
        run = footprint.length if self.run is Run.LENGTH else footprint.depth
        upper = self.count * run * self.thickness
        stands = self.base == 0.0
        return Faces(
            top=upper,
            sides=self.count * 2 * (run + self.thickness) * self.height,
            underside=0.0 if stands else upper,
            stands_on=upper if stands else 0.0,
        )


@frozen(kw_only=True, field_transformer=checked)
class Steps:
    """A flight of stairs: a run l has l ÷ going steps, each with a riser as wide as the flight.

    >>> faces = Steps(riser=0.175, going=0.25).faces(Footprint.rectangle(2.5, 0.9))
    >>> round(faces.top, 3), round(faces.sides, 3)
    (2.25, 1.575)
    """

    riser: Metres
    going: Metres

    def faces(self, footprint: Footprint) -> Faces:
        """Return treads and risers."""
        return Faces(
            top=footprint.area,
            sides=footprint.area * self.riser / self.going,
            stands_on=footprint.area,
        )


Solid = Box | Slab | Legs | Shelves | Panel | Steps
