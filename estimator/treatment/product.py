"""The product as its label and safety data sheet state it."""

import re
from enum import StrEnum

from attrs import frozen

from estimator.errors import QuantityError
from estimator.measures import (
    Kilograms,
    KilogramsPerCubicMetre,
    Metres,
    Ratio,
    Seconds,
    Share,
    checked,
)
from estimator.treatment.actives import purest

_ROUNDED: Ratio = 1.01
"""Labels round."""


class Form(StrEnum):
    """How the product is supplied."""

    TABLET = "tablet"
    LIQUID = "liquid"
    POWDER = "powder"
    READY = "ready to use"


@frozen(kw_only=True, field_transformer=checked)
class LabelUse:
    """One use that a label gives directions for.

    Parameters
    ----------
    least, most
        Strengths of solution it is made at; equal where the label gives a single one.
    contact_time
        How long the surface must stay visibly wet.
    zones
        Slugs of the strength zones it was read for; empty where it may serve any of its strength.
    """

    label: str
    least: KilogramsPerCubicMetre
    most: KilogramsPerCubicMetre
    contact_time: Seconds
    zones: tuple[str, ...] = ()

    def __attrs_post_init__(self) -> None:
        if not 0 < self.least <= self.most:
            raise QuantityError(
                self.label,
                "its strengths are 0 or the wrong way round",
                "give the least first, above 0 ppm",
            )
        if not self.contact_time > 0:
            raise QuantityError(self.label, "its contact time is 0", "give that of the label")


_DAY = re.compile(r"[0-9]{4}-(0[1-9]|1[0-2])(-(0[1-9]|[12][0-9]|3[01]))?")


@frozen(kw_only=True, field_transformer=checked)
class Product:
    """What a label says; None, or nothing, where it was not read yet.

    Parameters
    ----------
    available_per_tablet
        Available chlorine one tablet releases (tablets only).
    available_share
        Available chlorine as a share of the mass (powder only).
    available_strength
        Available chlorine in the concentrate or ready solution (liquid and ready to use).
    basis
        What the declared strength is a share of, in words: "weight per volume".
    uses
        The uses it gives directions for.
    most
        Greatest strength of solution the label allows for any use.
    charged_mist
        Whether the label allows application by charged mist or fog; None when not yet checked.
    droplet_least, droplet_most
        Size of droplets the label asks for, as volume median diameter.
    rinse_above
        Strength above which surfaces that touch food are rinsed with drinking water.
    reentry
        Least time after treatment before people return, by the label.
    registration
        Number under which the authority registered it.
    expires
        Day or month after which it is not used, ISO 8601.
    mix_keeps
        How long the mixed solution may be kept.
    strong_first
        Whether the label asks to work from strong to weak rather than from weak to strong.
    """

    slug: str
    label: str
    active: str
    form: Form
    available_per_tablet: Kilograms | None = None
    available_share: Share | None = None
    available_strength: KilogramsPerCubicMetre | None = None
    basis: str
    uses: tuple[LabelUse, ...] = ()
    most: KilogramsPerCubicMetre | None = None
    charged_mist: bool | None = None
    droplet_least: Metres | None = None
    droplet_most: Metres | None = None
    rinse_above: KilogramsPerCubicMetre | None = None
    reentry: Seconds | None = None
    registration: str = ""
    expires: str = ""
    mix_keeps: Seconds | None = None
    strong_first: bool = False
    source: str
    as_of: str

    def __attrs_post_init__(self) -> None:
        most = purest(self.active)
        if self.available_share and most and self.available_share > most * _ROUNDED:
            raise QuantityError(
                f"strength of {self.label}",
                f"pure {self.active} releases {most:.1%}, not {self.available_share:.1%}",
                "copy the figure again, and what it is a share of",
            )
        if self.expires and not _DAY.fullmatch(self.expires):
            raise QuantityError(
                f"expiry of {self.label}",
                f"“{self.expires}” is no date",
                "write it like 2027-03-31 or 2027-03",
            )
