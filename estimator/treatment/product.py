"""The product as its label states it."""

from enum import StrEnum

from attrs import frozen

from estimator.measures import Kilograms, KilogramsPerCubicMetre, Seconds, Share, checked


class Form(StrEnum):
    """How the product is supplied."""

    TABLET = "tablet"
    LIQUID = "liquid"
    POWDER = "powder"
    READY = "ready to use"


@frozen(kw_only=True, field_transformer=checked)
class Product:
    """What a label says; None where it was not read yet.

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
    most
        Greatest strength of solution the label allows.
    charged_mist
        Whether the label allows application by charged mist or fog; None when not yet checked.
    rinse_above
        Strength above which surfaces that touch food are rinsed with drinking water.
    reentry
        Least time after treatment before people return, by the label.
    """

    slug: str
    label: str
    active: str
    form: Form
    available_per_tablet: Kilograms | None = None
    available_share: Share | None = None
    available_strength: KilogramsPerCubicMetre | None = None
    basis: str
    most: KilogramsPerCubicMetre | None = None
    charged_mist: bool | None = None
    rinse_above: KilogramsPerCubicMetre | None = None
    reentry: Seconds | None = None
    source: str
    as_of: str
