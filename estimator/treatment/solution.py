"""The solution: litres by strength, how they are mixed and in which tanks they go."""

from attrs import frozen

from estimator.measures import (
    CubicMetres,
    CubicMetresPerSquareMetre,
    Kilograms,
    KilogramsPerCubicMetre,
    Seconds,
    SquareMetres,
    checked,
)
from estimator.surfaces.schedule import Lie
from estimator.treatment.air import Air
from estimator.treatment.evaporation import Evaporation
from estimator.treatment.measuring import Measuring
from estimator.treatment.product import Product


@frozen(kw_only=True, field_transformer=checked)
class Dose:
    """What one room takes in one strength zone.

    Parameters
    ----------
    strength
        Strength wanted; rooms and zones of equal strength are sprayed from the same mix.
    area
        Surface treated.
    gone_over
        Surface sprayed with every pass counted; some surfaces need more passes than others.
    volume
        Liquid sprayed in the room in this zone, losses included, all passes together.
    passes
        The most passes any of its surfaces needs so that it stays wet for the contact time.
    dries_after
        When the slowest surface is dry, counted from the end of spraying.
    wiped
        Area that is wiped and rinsed after the contact time because food touches it.
    """

    room: str
    zone: str
    strength: KilogramsPerCubicMetre
    area: SquareMetres
    gone_over: SquareMetres
    volume: CubicMetres
    passes: int
    contact_time: Seconds
    dries_after: Seconds
    wiped: SquareMetres


@frozen(kw_only=True, field_transformer=checked)
class TankFill:
    """One filling of the tank: solution made up, and what goes into it."""

    volume: CubicMetres
    tablets: int = 0
    powder: Kilograms = 0.0
    concentrate: CubicMetres = 0.0
    water: CubicMetres
    strength: KilogramsPerCubicMetre


@frozen(kw_only=True, field_transformer=checked)
class Stock:
    """A strong solution of whole tablets, of which every tank takes a measured part.

    Parameters
    ----------
    water
        Water the tablets are dissolved in.
    left_over
        Stock that no tank takes.
    fills
        Tanks made from it; their concentrate is stock.
    """

    tablets: int
    water: CubicMetres
    strength: KilogramsPerCubicMetre
    left_over: CubicMetres
    fills: tuple[TankFill, ...]


@frozen(kw_only=True, field_transformer=checked)
class Mix:
    """All solution of one strength.

    Parameters
    ----------
    zones
        The strength zones it serves.
    wanted
        Strength asked for; ``strength`` of each fill is what is really obtained.
    contact_time
        The longest contact time of its zones.
    needed
        Liquid sprayed, losses included.
    most
        Greatest strength the label allows for its zones; None when that was not read.
    made
        Liquid made up in all fills; the rest is left over.
    stock
        Another way to make it exactly, where whole tablets in the tank do not come close.
    """

    zones: tuple[str, ...]
    wanted: KilogramsPerCubicMetre
    contact_time: Seconds
    needed: CubicMetres
    most: KilogramsPerCubicMetre | None = None
    fills: tuple[TankFill, ...]
    stock: Stock | None = None

    @property
    def made(self) -> CubicMetres:
        """Liquid made up in all fills."""
        return sum(fill.volume for fill in self.fills)

    @property
    def left_over(self) -> CubicMetres:
        """Liquid made up but not needed."""
        return max(0.0, self.made - self.needed)

    @property
    def tablets(self) -> int:
        """Tablets in all fills."""
        return sum(fill.tablets for fill in self.fills)

    @property
    def powder(self) -> Kilograms:
        """Powder in all fills."""
        return sum(fill.powder for fill in self.fills)

    @property
    def concentrate(self) -> CubicMetres:
        """Liquid concentrate in all fills."""
        return sum(fill.concentrate for fill in self.fills)

    @property
    def strength(self) -> KilogramsPerCubicMetre:
        """Greatest strength obtained in any fill."""
        return max((fill.strength for fill in self.fills), default=0.0)


@frozen(kw_only=True, field_transformer=checked)
class Wetness:
    """Whether the film on surfaces of one lie stays wet for the contact time of a zone.

    Parameters
    ----------
    usual
        The film the book lays in one pass.
    usual_dries_after
        When that film may be dry at the earliest.
    needed
        The least liquid that stays wet for the contact time, all passes together.
    most
        What one pass can lay before it runs or drips.
    film
        The film laid in each pass so that the surface stays wet.
    passes
        How many passes it takes.
    stays_wet
        How long the liquid of all passes lasts at the least.
    dries_after
        When it is dry at the latest, counted from the end of the last pass.
    claimed, claimed_dries_after
        Film that an advertised coverage comes to, and when it may be dry; None without one.
    """

    zone: str
    lie: Lie
    usual: CubicMetresPerSquareMetre
    usual_dries_after: Seconds
    contact_time: Seconds
    needed: CubicMetresPerSquareMetre
    most: CubicMetresPerSquareMetre
    film: CubicMetresPerSquareMetre
    passes: int
    stays_wet: Seconds
    dries_after: Seconds
    claimed: CubicMetresPerSquareMetre | None = None
    claimed_dries_after: Seconds | None = None

    @property
    def runs(self) -> bool:
        """Whether the least film would run or drip if it were laid at once."""
        return self.passes > 1

    @property
    def again_every(self) -> Seconds | None:
        """Time from the start of one pass to that of the next; None when one is enough."""
        return self.contact_time / self.passes if self.runs else None

    @property
    def claim_holds(self) -> bool | None:
        """Whether the advertised coverage stays wet long enough and does not run."""
        if self.claimed is None:
            return None
        return self.needed <= self.claimed <= self.most

    @property
    def holds(self) -> bool:
        """Whether the book's film, laid once, stays wet for the contact time."""
        return self.passes == 1 and self.film <= self.usual


@frozen(kw_only=True)
class Solution:
    """Everything about the liquid of a job.

    Parameters
    ----------
    product_label
        The product's name on papers.
    zone_labels
        Slug and name on papers of every strength zone used.
    air, drying
        The air of the rooms, and how fast films dry in it.
    label
        The product as its label states it, as far as it was read.
    measuring
        What water and product are measured with.
    use_within
        How long mixed solution may be used, and whether the label or only guidance says so.
    unconfirmed
        What the label must still confirm before anyone sprays, one sentence each.
    warnings
        What follows from strength and film, one sentence each.
    """

    product: str
    product_label: str = ""
    zone_labels: tuple[tuple[str, str], ...] = ()
    doses: tuple[Dose, ...]
    mixes: tuple[Mix, ...]
    wetness: tuple[Wetness, ...]
    air: Air | None = None
    drying: Evaporation | None = None
    label: Product | None = None
    measuring: Measuring | None = None
    use_within: Seconds | None = None
    use_within_by_label: bool = False
    unconfirmed: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()

    @property
    def volume(self) -> CubicMetres:
        """Liquid sprayed on the whole site, losses included."""
        return sum(mix.needed for mix in self.mixes)

    def zone_label(self, slug: str) -> str:
        """Return the name of a zone on papers, its slug where it has none."""
        return dict(self.zone_labels).get(slug, slug)
