"""From the schedule of surfaces to the solution that treats them."""

from collections.abc import Mapping, Sequence

from attrs import evolve, frozen

from estimator.errors import QuantityError, TreatmentError
from estimator.measures import (
    CubicMetres,
    CubicMetresPerSquareMetre,
    KilogramsPerCubicMetre,
    Metres,
    Seconds,
    Share,
)
from estimator.surfaces.schedule import Lie, RoomSchedule, Schedule, Surface
from estimator.treatment.air import Air
from estimator.treatment.evaporation import Evaporation, evaporation
from estimator.treatment.film import Film
from estimator.treatment.findings import unconfirmed, warnings
from estimator.treatment.label import (
    Additive,
    label_use,
    refuse_against_label,
    strongest_allowed,
    zone_by_label,
)
from estimator.treatment.measuring import Measuring
from estimator.treatment.mixing import tank_fills
from estimator.treatment.product import LabelUse, Product
from estimator.treatment.solution import Dose, Mix, Solution, Wetness
from estimator.treatment.stock import stock_for
from estimator.treatment.wetting import wetness
from estimator.treatment.zone import Zone

KEEPS_BY_GUIDANCE: Seconds = 24 * 3600.0
"""Diluted bleach is kept at most a day (relief-agency water and hygiene guidance, 2020)."""


def treat(
    schedule: Schedule,
    zones: Sequence[Zone],
    films: Sequence[Film],
    product: Product,
    *,
    tank: CubicMetres,
    air: Air,
    measuring: Measuring,
    claimed: CubicMetresPerSquareMetre | None = None,
    added: Sequence[Additive] = (),
    beside: Sequence[Additive] = (),
    droplets: Metres | None = None,
    on: str = "",
) -> Solution:
    """Return the solution by strength, mixed tank by tank, that treats every surface.

    Parameters
    ----------
    air
        The air of the rooms while they are treated.
    measuring
        What water and product are measured with.
    claimed
        Film that an advertised coverage comes to, held against the contact times.
    added
        What somebody wants to put into the tank with the product.
    beside
        What else is used on the site on the same visit.
    droplets
        Volume median diameter of the sprayer's droplets; None when it is not known.
    on
        Day of use, ISO 8601; empty when it is not known.

    Raises
    ------
    TreatmentError
        When the label forbids the treatment, or a zone or film the schedule asks for is missing.
    QuantityError
        When the tank holds nothing.
    """
    if not tank > 0:
        raise QuantityError("tank", "it holds nothing", "give a volume above 0")
    refuse_against_label(product, added, beside=beside, droplets=droplets, on=on)
    drying = evaporation(air)
    coats = _coats(schedule, zones, films, product, drying, claimed)
    doses = tuple(dose for room in schedule.rooms for dose in _doses(room, coats))
    uses = {coat.zone.slug: coat.use for coat in coats.values()}
    mixes = _mixes(doses, product, uses, tank, measuring)
    used = {zone for mix in mixes for zone in mix.zones}
    wetnesses = tuple(coat.wetness for coat in coats.values())
    return Solution(
        product=product.slug,
        product_label=product.label,
        label=product,
        zone_labels=tuple((zone.slug, zone.label) for zone in zones if zone.slug in used),
        doses=doses,
        mixes=mixes,
        wetness=wetnesses,
        air=air,
        drying=drying,
        measuring=measuring,
        use_within=product.mix_keeps or KEEPS_BY_GUIDANCE,
        use_within_by_label=product.mix_keeps is not None,
        unconfirmed=unconfirmed(product, mixes, doses, droplets),
        warnings=warnings(
            mixes, wetnesses, {zone.slug: zone.label for zone in zones}, product, droplets
        ),
    )


@frozen(kw_only=True)
class _Coat:
    """What is laid on surfaces of one lie in one zone, and the use of the label that it is."""

    zone: Zone
    use: LabelUse | None
    wetness: Wetness
    loss: Share

    @property
    def per_area(self) -> CubicMetresPerSquareMetre:
        """Liquid sprayed per area, all passes and the spray that misses included."""
        return self.wetness.film * self.wetness.passes * (1 + self.loss)


_Coats = dict[tuple[str, Lie], _Coat]


def _coats(
    schedule: Schedule,
    zones: Sequence[Zone],
    films: Sequence[Film],
    product: Product,
    drying: Evaporation,
    claimed: CubicMetresPerSquareMetre | None,
) -> _Coats:
    """Return what is laid for every zone and lie of the schedule, in order of appearance."""
    zone_of = {zone.slug: zone for zone in zones}
    film_of = {film.lie: film for film in films}
    coats: _Coats = {}
    for room in schedule.rooms:
        for surface in room.surfaces:
            key = surface.zone, surface.lie
            if key in coats or not surface.treated:
                continue
            where = f"{room.name}, {surface.label}"
            if surface.zone not in zone_of:
                raise TreatmentError(
                    where, f"there is no strength zone {surface.zone!r}", "add it to the book"
                )
            if surface.lie not in film_of:
                raise TreatmentError(
                    where,
                    f"there is no film for {surface.lie.value} surfaces",
                    "add it to the book",
                )
            use = label_use(product, zone_of[surface.zone])
            zone = zone_by_label(zone_of[surface.zone], use)
            film = film_of[surface.lie]
            coats[key] = _Coat(
                zone=zone,
                use=use,
                wetness=wetness(zone.slug, zone.contact_time, film, drying, claimed=claimed),
                loss=film.loss,
            )
    return coats


def _doses(room: RoomSchedule, coats: _Coats) -> list[Dose]:
    """Return what the room takes in each of its zones; every food surface counts as wiped."""
    in_zone: dict[str, list[Surface]] = {}
    for surface in room.surfaces:
        if surface.treated:
            in_zone.setdefault(surface.zone, []).append(surface)
    doses = []
    for slug, surfaces in in_zone.items():
        laid = [(surface.treated, coats[slug, surface.lie]) for surface in surfaces]
        zone = laid[0][1].zone
        doses.append(
            Dose(
                room=room.room,
                zone=slug,
                strength=zone.strength,
                area=sum(area for area, _ in laid),
                gone_over=sum(area * coat.wetness.passes for area, coat in laid),
                volume=sum(area * coat.per_area for area, coat in laid),
                passes=max(coat.wetness.passes for _, coat in laid),
                contact_time=zone.contact_time,
                dries_after=max(coat.wetness.dries_after for _, coat in laid),
                wiped=sum((surface.treated for surface in surfaces if surface.food_contact), 0.0),
            )
        )
    return doses


def _mixes(
    doses: Sequence[Dose],
    product: Product,
    uses: Mapping[str, LabelUse | None],
    tank: CubicMetres,
    measuring: Measuring,
) -> tuple[Mix, ...]:
    """Return all solution by strength, weakest first unless the label asks for the contrary."""
    by_strength: dict[KilogramsPerCubicMetre, list[Dose]] = {}
    for dose in doses:
        by_strength.setdefault(dose.strength, []).append(dose)
    mixes = []
    for wanted, alike in sorted(by_strength.items(), reverse=product.strong_first):
        needed = sum(dose.volume for dose in alike)
        zones = tuple(dict.fromkeys(dose.zone for dose in alike))
        most = strongest_allowed(product, [uses[zone] for zone in zones])
        mix = Mix(
            zones=zones,
            wanted=wanted,
            contact_time=max(dose.contact_time for dose in alike),
            needed=needed,
            most=most,
            fills=tank_fills(needed, wanted, evolve(product, most=most), tank, measuring),
        )
        mixes.append(evolve(mix, stock=stock_for(mix, product, tank, measuring)))
    return tuple(mixes)
