"""What follows from a treatment for the people who carry it out, one sentence each."""

from collections.abc import Iterator, Mapping, Sequence

from estimator.measures import (
    CubicMetresPerSquareMetre,
    KilogramsPerCubicMetre,
    Metres,
    Ratio,
)
from estimator.treatment.dilution import ppm_words
from estimator.treatment.label import droplet_words, micrometres, minutes
from estimator.treatment.product import Product
from estimator.treatment.solution import Dose, Mix, Wetness

CORRODES_ABOVE: KilogramsPerCubicMetre = 0.5
"""Metal corrodes above all over 500 ppm (laboratory summaries of CDC 2008)."""

MUCH_STRONGER: Ratio = 1.2
"""Whole tablets this far above the strength wanted are worth a word (our own choice)."""


FINEST: Metres = 40e-6
"""Volume median diameter that US EPA asked of electrostatic sprayers at least (university safety
sheet citing it, 2021)."""


def unconfirmed(
    product: Product, mixes: Sequence[Mix], doses: Sequence[Dose], droplets: Metres | None
) -> tuple[str, ...]:
    """Return what label and sprayer must still confirm before anyone sprays."""
    found = []
    if product.charged_mist is None:
        found.append("that application by charged mist or fog is allowed")
    if not product.uses and mixes:
        sprayed = sorted({(dose.strength, dose.contact_time) for dose in doses})
        listed = ", ".join(f"{ppm_words(ppm)} for {minutes(time)}" for ppm, time in sprayed)
        found.append(f"that its uses include {listed}")
    if mixes and any(mix.most is None for mix in mixes):
        strongest = max(mix.strength for mix in mixes)
        found.append(f"that solutions up to {ppm_words(strongest)} are allowed")
    asked = droplet_words(product)
    if not asked:
        found.append("which size of droplets it asks for")
    if product.reentry is None:
        found.append("how long people must stay out after treatment")
    if product.rinse_above is None and any(dose.wiped for dose in doses):
        found.append("that surfaces which touch food may be treated, and how to rinse them")
    if product.mix_keeps is None:
        found.append("how long the mixed solution keeps")
    if not product.registration:
        found.append("its registration number")
    if not product.expires:
        found.append("its expiry date")
    said = [f"Confirm on the label {fact}." for fact in found]
    if droplets is None:
        size = f"are of {asked}, as the label asks" if asked else "are those the label asks for"
        said.append(f"Confirm in the sprayer's papers that its droplets {size}.")
    return tuple(said)


def warnings(
    mixes: Sequence[Mix],
    wetness: Sequence[Wetness],
    zone_labels: Mapping[str, str],
    product: Product,
    droplets: Metres | None,
) -> tuple[str, ...]:
    """Return what follows from strengths, films and droplets."""
    return (
        *_of_droplets(product, droplets),
        *_of_strength(mixes),
        *_of_wetness(wetness, zone_labels),
        *of_claim(wetness, zone_labels),
    )


def _of_droplets(product: Product, droplets: Metres | None) -> Iterator[str]:
    if droplets is not None and droplets < FINEST and not droplet_words(product):
        yield (
            f"The sprayer's droplets of {micrometres(droplets)} are finer than the "
            f"{micrometres(FINEST)} that the US EPA asked for at least: finer mist stays in the "
            "air longer and is breathed in deeper."
        )


def _of_strength(mixes: Sequence[Mix]) -> Iterator[str]:
    for mix in mixes:
        if mix.strength > MUCH_STRONGER * mix.wanted:
            yield (
                f"The solution comes out at {ppm_words(mix.strength)} where "
                f"{ppm_words(mix.wanted)} is wanted; smaller tablets or measured powder "
                "come closer."
            )
        if mix.strength > CORRODES_ABOVE:
            yield (
                f"At {ppm_words(mix.strength)} the solution may corrode metal and bleach "
                "fabric; rinse metal after the contact time."
            )


def _of_wetness(wetness: Sequence[Wetness], zone_labels: Mapping[str, str]) -> Iterator[str]:
    for wet in wetness:
        if wet.holds:
            continue
        times = "once" if wet.passes == 1 else f"in {wet.passes} passes"
        yield (
            f"{zone_labels[wet.zone]}, {wet.lie.value} surfaces: {_millilitres(wet.usual)} dries "
            f"after {minutes(wet.usual_dries_after)} but must stay wet for "
            f"{minutes(wet.contact_time)}; {_millilitres(wet.film)} is laid {times}."
        )


def of_claim(wetness: Sequence[Wetness], zone_labels: Mapping[str, str]) -> Iterator[str]:
    """Yield where an advertised coverage fails its contact time or runs, and what to do.

    Parameters
    ----------
    zone_labels
        Names of the strength zones by slug.
    """
    failing: dict[tuple[str, bool], list[Wetness]] = {}
    for wet in wetness:
        if wet.claimed is not None and not wet.claim_holds:
            failing.setdefault((wet.zone, wet.claimed < wet.needed), []).append(wet)
    for (zone, too_thin), wets in failing.items():
        first, lies = wets[0], ", ".join(wet.lie.value for wet in wets)
        claimed, dry = first.claimed or 0.0, first.claimed_dries_after or 0.0
        where = f"{zone_labels[zone]}, {lies} surfaces: the advertised coverage comes to "
        if too_thin:
            yield (
                f"{where}{_millilitres(claimed)} and may dry after {minutes(dry)}, but must stay "
                f"wet for {minutes(first.contact_time)}; lay {_millilitres(first.needed)} instead, "
                f"so that a litre covers {1e-3 / first.needed:.0f} m²."
            )
        else:
            yield (
                f"{where}{_millilitres(claimed)}, more than stays there in one pass; it would run "
                "or drip."
            )


def _millilitres(film: CubicMetresPerSquareMetre) -> str:
    return f"{film * 1e6:.0f} mL/m²"
