"""What the label allows; nothing overrules it."""

from collections.abc import Sequence
from enum import StrEnum

from attrs import evolve

from estimator.errors import TreatmentError
from estimator.measures import KilogramsPerCubicMetre, Metres, Seconds
from estimator.treatment.dilution import ppm_words, to_ppm
from estimator.treatment.product import LabelUse, Product
from estimator.treatment.zone import Zone

_ROUNDING = 1e-9


class Additive(StrEnum):
    """What somebody may want to put into the tank with the product, or to use beside it."""

    ACID = "acid or descaler"
    AMMONIA = "ammonia or a cleaner with it"
    PEROXIDE = "peroxide"
    ALCOHOL = "alcohol"
    CLEANER = "another cleaner or scent"
    CHLORINE = "another chlorine product"


_FORMS = {
    Additive.ACID: "chlorine gas forms",
    Additive.AMMONIA: "chloramine gas forms",
    Additive.PEROXIDE: "they react, with heat and gas",
    Additive.ALCOHOL: "toxic vapours form",
    Additive.CLEANER: "toxic gas may form",
    Additive.CHLORINE: "different chlorine products may react violently",
}
"""Washington State Department of Health; WHO Q&A 2020; university biosafety manual. Peroxide,
alcohol and chlorine products: that they must not be mixed is read there, what forms is from
memory."""

KEPT_APART = tuple(one for one in Additive if one is not Additive.CLEANER)
"""What is not used on the same visit as chlorine, since the two meet on surfaces, in buckets and in
drains; a plain cleaner is, for surfaces are cleaned and rinsed first."""


def refuse_against_label(
    product: Product,
    added: Sequence[Additive],
    *,
    beside: Sequence[Additive] = (),
    droplets: Metres | None = None,
    on: str,
) -> None:
    """Refuse the product as a whole, or what is to be mixed with it or used beside it.

    Parameters
    ----------
    beside
        What else is used on the site on the same visit.
    droplets
        Volume median diameter of the sprayer's droplets; None when it is not known.
    on
        Day of use, ISO 8601; empty when it is not known.

    Raises
    ------
    TreatmentError
        When its label rules out the method or the droplets, it has expired, or something is added
        or used beside it.
    """
    if product.charged_mist is False:
        raise TreatmentError(
            product.label,
            "its label does not allow application by charged mist or fog",
            "choose a product whose label does, or wipe it on by hand",
        )
    if droplets is not None and not _asked_for(droplets, product):
        raise TreatmentError(
            product.label,
            f"its label asks for droplets of {droplet_words(product)}, and the sprayer's are "
            f"{micrometres(droplets)}",
            "use a sprayer or nozzle that gives what the label asks for",
        )
    if product.expires and on[: len(product.expires)] > product.expires:
        raise TreatmentError(
            product.label, f"it expired on {product.expires}", "use stock that is in date"
        )
    if added:
        reason = "; ".join(f"with {one.value}, {_FORMS[one]}" for one in dict.fromkeys(added))
        raise TreatmentError(
            product.label,
            f"nothing may be mixed into a chlorine solution: {reason}",
            "leave it out of the tank and rinse surfaces it was used on with water first",
        )
    if apart := [one for one in dict.fromkeys(beside) if one in KEPT_APART]:
        reason = "; ".join(f"with {one.value}, {_FORMS[one]}" for one in apart)
        raise TreatmentError(
            product.label,
            f"it must not meet what else is used on the visit, on a surface or in a bucket: "
            f"{reason}",
            "use that on another day, and rinse its surfaces with water before they are sprayed",
        )


def label_use(product: Product, zone: Zone) -> LabelUse | None:
    """Return the use of the label that serves a zone; None when the label was not read.

    Of several that fit, the one that must stay wet longest.

    Raises
    ------
    TreatmentError
        When the label was read and gives no such use.
    """
    if not product.uses:
        return None
    own = [use for use in product.uses if zone.slug in use.zones]
    offered = own or [use for use in product.uses if not use.zones]
    fitting = [use for use in offered if _covers(use, zone.strength)]
    if fitting:
        return max(fitting, key=lambda use: use.contact_time)
    given = ", ".join(_shown(use) for use in offered) or "none for this zone"
    raise TreatmentError(
        product.label,
        f"{ppm_words(zone.strength)} for {zone.label} is not a use on its label, which gives "
        f"{given}",
        "set the zone to a strength of the label or choose another product",
    )


def zone_by_label(zone: Zone, use: LabelUse | None) -> Zone:
    """Return a zone that stays wet as long as the label asks, if that is longer."""
    if use is None or use.contact_time <= zone.contact_time:
        return zone
    return evolve(zone, contact_time=use.contact_time, source=f"label: {use.label}")


def strongest_allowed(
    product: Product, uses: Sequence[LabelUse | None]
) -> KilogramsPerCubicMetre | None:
    """Return the greatest strength that all of these uses allow; None when nothing was read."""
    limits = [product.most, *(use.most for use in uses if use is not None)]
    return min((limit for limit in limits if limit is not None), default=None)


def _asked_for(droplets: Metres, product: Product) -> bool:
    least, most = product.droplet_least, product.droplet_most
    return (least is None or droplets >= least * (1 - _ROUNDING)) and (
        most is None or droplets <= most * (1 + _ROUNDING)
    )


def droplet_words(product: Product) -> str:
    """Return which droplets a label asks for; nothing when it was not read."""
    least, most = product.droplet_least, product.droplet_most
    if least and most:
        return f"{micrometres(least)} to {micrometres(most)}"
    if least:
        return f"at least {micrometres(least)}"
    return f"at most {micrometres(most)}" if most else ""


def micrometres(size: Metres) -> str:
    """Return a size of droplets.

    >>> micrometres(4e-05)
    '40 µm'
    """
    return f"{size * 1e6:g} µm"


def _covers(use: LabelUse, strength: KilogramsPerCubicMetre) -> bool:
    return use.least * (1 - _ROUNDING) <= strength <= use.most * (1 + _ROUNDING)


def _shown(use: LabelUse) -> str:
    least = f"{to_ppm(use.least):,.0f} to " if use.most > use.least else ""
    return f"{least}{ppm_words(use.most)} for {minutes(use.contact_time)}"


def minutes(time: Seconds) -> str:
    """Return a time in minutes, or in seconds below one.

    >>> minutes(600), minutes(150), minutes(30)
    ('10 min', '2.5 min', '30 s')
    """
    return f"{time / 60:.1f} min".replace(".0 ", " ") if time >= 60 else f"{time:.0f} s"
