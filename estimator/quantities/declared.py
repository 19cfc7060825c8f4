"""The strength a label declares, as people copy it: "12.5 % trade", "1.5 g per tablet"."""

import re

from estimator.errors import QuantityError
from estimator.quantities.lengths import quoted
from estimator.quantities.tokens import plain
from estimator.quantities.written import quantity
from estimator.treatment.declared import Basis, Declared, of_solution, per_cent, per_tablet
from estimator.treatment.product import Form

_GRAVITY = re.compile(r"[,;]? *(?:sg|s\.g\.|specific gravity|density) *(?:of|=)? *([0-9.]+)$")
_TABLET = re.compile(r"^(.+?)(?: available(?: chlorine)?)? *(?:per|/|in one|in a|a) *tablet$")
_BARE = re.compile(r"^[0-9.,]+$")
_PER_CENT = re.compile(r"^([0-9][0-9.,]*) *(?:%|percent|per cent) *(.*)$")
_BASES = (
    (Basis.TRADE, r"(?:available )?trade(?: strength| per ?cent)?"),
    (
        Basis.VOLUME,
        r"(?:available chlorine |available )?(?:w/v|(?:by )?weight ?(?:/|per|in) ?volume)",
    ),
    (Basis.HYPOCHLORITE, r"(?:sodium hypochlorite|naocl)(?: by weight| w/w)?"),
    (Basis.WEIGHT, r"(?:available chlorine |available )?(?:by weight|w/w|by mass)(?: of powder)?"),
)
_REMEDY = "write it like 12.5 % trade, 5 % w/v, 60 % by weight or 5.25 % NaOCl by weight, SG 1.08"


def declared_strength(text: str, form: Form) -> Declared:
    """Read the strength that a label declares.

    Raises
    ------
    QuantityError
        When it does not say per cent of what, or it does not suit the form of the product.

    Examples
    --------
    >>> declared_strength("12.5 % trade", Form.LIQUID).available_strength
    125.0
    """
    where = quoted(text)
    line = " ".join(plain(text[:100]).lower().split())
    if form is Form.TABLET:
        match = _TABLET.match(line)
        if not match:
            raise QuantityError(
                where,
                "the strength of tablets is the available chlorine one releases",
                "write it like 1.5 g per tablet",
            )
        return per_tablet(quantity(match[1], "kg"))
    gravity = None
    if found := _GRAVITY.search(line):
        gravity = quantity(found[1], "dimensionless")
        line = line[: found.start()].strip()
        if not 0.8 <= gravity <= 2:
            raise QuantityError(
                where,
                f"no liquid here has a specific gravity of {gravity:g}",
                "give about 1.0 to 1.3",
            )
    match = _PER_CENT.match(line)
    if not match:
        if form is Form.POWDER or _BARE.match(line):
            raise QuantityError(where, "it does not say per cent of what", _REMEDY)
        return of_solution(quantity(line, "kg/m^3"))
    share = quantity(f"{match[1]} %", "dimensionless")
    if not 0 < share <= 1:
        raise QuantityError(where, "it is not between 0 and 100 %", _REMEDY)
    basis = next((one for one, words in _BASES if match[2] and re.fullmatch(words, match[2])), None)
    if basis is None:
        raise QuantityError(where, "it does not say per cent of what", _REMEDY)
    return per_cent(share, basis, form, specific_gravity=gravity)
