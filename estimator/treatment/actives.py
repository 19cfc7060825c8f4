"""What pure actives release, as a limit to what a label can mean."""

from estimator.measures import Share
from estimator.treatment.dilution import available_chlorine

_ACTIVES: tuple[tuple[tuple[str, ...], int, float], ...] = (
    (("trichlor", "symclosene", "tcca"), 3, 0.232410),
    (("dihydrate",), 2, 0.255977),
    (("dichlor", "nadcc", "troclosene"), 2, 0.219947),
    (("calcium hypochlorite",), 2, 0.142982),
)
"""Words in the name of an active, its active chlorine atoms and its molar mass in kg/mol, from the
conventional atomic masses of IUPAC; the first that fits counts."""


def purest(active: str) -> Share | None:
    """Return the available chlorine of the pure active; None when it is not known.

    >>> round(purest("sodium dichloroisocyanurate (NaDCC)"), 4)
    0.6448
    """
    name = active.casefold()
    for words, chlorines, molar_mass in _ACTIVES:
        if any(word in name for word in words):
            return available_chlorine(chlorines, molar_mass)
    return None
