"""The part of the book that measuring needs: room uses, furniture and usual openings."""

import math

from attrs import Factory, field, frozen

from estimator.errors import NoSuchEntry
from estimator.measures import Metres, checked
from estimator.plan.opening import OpeningKind
from estimator.surfaces.furniture import FurnitureKind
from estimator.surfaces.solids import Footprint
from estimator.surfaces.uses import RoomUse


@frozen(kw_only=True, field_transformer=checked)
class UsualOpening:
    """What a door, window or passage measures where nobody said.

    Parameters
    ----------
    sill
        Height of the lower edge above the floor.
    reveal
        Depth of the sides of the gap that are seen and sprayed from one room.
    """

    kind: OpeningKind
    height: Metres
    sill: Metres = 0.0
    reveal: Metres = 0.0
    source: str
    as_of: str


@frozen(kw_only=True, cache_hash=True)
class SurfaceBook:
    """Room uses, furniture and usual openings, found by slug."""

    uses: tuple[RoomUse, ...]
    furniture: tuple[FurnitureKind, ...]
    openings: tuple[UsualOpening, ...]
    _use: dict[str, RoomUse] = field(
        init=False,
        eq=False,
        repr=False,
        default=Factory(lambda self: {use.slug: use for use in self.uses}, takes_self=True),
    )
    _kind: dict[str, FurnitureKind] = field(
        init=False,
        eq=False,
        repr=False,
        default=Factory(lambda self: {kind.slug: kind for kind in self.furniture}, takes_self=True),
    )

    def use(self, slug: str) -> RoomUse:
        """Return the room use of that slug.

        Raises
        ------
        NoSuchEntry
            When the book has none.
        """
        try:
            return self._use[slug]
        except KeyError:
            raise NoSuchEntry(
                slug, "the book has no such room use", "choose one of its uses or add a row"
            ) from None

    def kind(self, slug: str) -> FurnitureKind:
        """Return the kind of furniture of that slug.

        Raises
        ------
        NoSuchEntry
            When the book has none.
        """
        try:
            return self._kind[slug]
        except KeyError:
            raise NoSuchEntry(
                slug, "the book has no such furniture", "choose one of its kinds or add a row"
            ) from None

    def kind_in(self, use: RoomUse, slug: str, footprint: Footprint | None) -> FurnitureKind:
        """Return the kind of that slug, or what of its family usually stands in a room of a use.

        A kind that is its own family stands for any of it: a table is a desk in an office. Of
        several the one most like the footprint is taken, and none less than half or more than
        twice its area.

        Raises
        ------
        NoSuchEntry
            When the book has no such kind.
        """
        kind = self.kind(slug)
        if kind.family != slug:
            return kind
        family = [
            own for content in use.contents if (own := self.kind(content.kind)).family == slug
        ]
        if footprint is None:
            return family[0] if family else kind
        alike = [own for own in family if 0.5 <= own.footprint.area / footprint.area <= 2.0]
        return min(alike, key=lambda own: _unlike(own.footprint, footprint), default=kind)

    def opening(self, kind: OpeningKind) -> UsualOpening:
        """Return what an opening of that kind usually measures.

        Raises
        ------
        NoSuchEntry
            When the book does not say.
        """
        for usual in self.openings:
            if usual.kind is kind:
                return usual
        raise NoSuchEntry(kind, "the book has no usual size for it", "add a row under openings")


def _unlike(usual: Footprint, drawn: Footprint) -> float:
    """Return how far two footprints differ, by the logarithms of their longer and shorter sides."""
    pairs = zip(
        sorted((usual.length, usual.depth)), sorted((drawn.length, drawn.depth)), strict=True
    )
    return sum(abs(math.log(one / other)) for one, other in pairs)
