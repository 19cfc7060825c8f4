"""How the solution of one strength is made up, tank by tank."""

import math
from collections.abc import Callable, Sequence

from estimator.errors import TreatmentError
from estimator.measures import CubicMetres, Kilograms, KilogramsPerCubicMetre, Ratio
from estimator.treatment.dilution import (
    concentrate_needed,
    powder_per_volume,
    rounded_down,
    rounded_up,
    strength_obtained,
    tablets_needed,
    to_ppm,
)
from estimator.treatment.product import Form, Product
from estimator.treatment.solution import TankFill

# Whole tablets may make the solution this much stronger than wanted before more water is added,
# though some is then left over: 5 tablets for 4.26 (1175 ppm for 1000) are taken as they are.
TOLERATED: Ratio = 1.25


def tank_fills(
    needed: CubicMetres, wanted: KilogramsPerCubicMetre, product: Product, tank: CubicMetres
) -> tuple[TankFill, ...]:
    """Return the fills of a tank that make up a volume of at least the strength wanted.

    Raises
    ------
    TreatmentError
        When the label does not allow it or does not say what the product releases.
    """
    _refuse_above_label(wanted, product)
    if not needed:
        return ()
    if product.form is Form.TABLET:
        per_tablet = _declared(product, product.available_per_tablet, "chlorine per tablet")
        return _tablet_fills(needed, wanted, per_tablet, product, tank)
    if product.form is Form.POWDER:
        available = _declared(product, product.available_share, "chlorine as a share of the mass")
        per_volume = powder_per_volume(wanted, available)
        return tuple(
            TankFill(volume=volume, powder=volume * per_volume, water=volume, strength=wanted)
            for volume in even_volumes(needed, tank)
        )
    strength = _declared(product, product.available_strength, "chlorine by volume")
    if strength < wanted:
        raise TreatmentError(
            product.label,
            f"it holds {to_ppm(strength):.0f} ppm, weaker than the {to_ppm(wanted):.0f} ppm wanted",
            "choose a stronger product or a weaker zone",
        )
    if product.form is Form.READY:
        _refuse_above_label(strength, product)
        return tuple(
            TankFill(volume=volume, concentrate=volume, water=0.0, strength=strength)
            for volume in even_volumes(needed, tank)
        )
    return tuple(
        TankFill(
            volume=volume,
            concentrate=(part := concentrate_needed(volume, wanted, strength)),
            water=volume - part,
            strength=wanted,
        )
        for volume in even_volumes(needed, tank)
    )


def even_volumes(needed: CubicMetres, tank: CubicMetres) -> tuple[CubicMetres, ...]:
    """Return full tanks and a smaller last one that make up a volume."""
    full = rounded_up(needed / tank) - 1
    return (*[tank] * full, needed - full * tank)


def _tablet_fills(
    needed: CubicMetres,
    wanted: KilogramsPerCubicMetre,
    per_tablet: Kilograms,
    product: Product,
    tank: CubicMetres,
) -> tuple[TankFill, ...]:
    """Return the fewest fills, of those with the least left over, of those the fewest tablets.

    The greatest volume of a fill grows ever more slowly with its tablets, so tablets spread evenly
    make up the most; and what is left over because the solution must be no stronger grows with
    every tablet. The fewest tablets that suffice when spread evenly are therefore best. A solution
    much stronger than wanted is thinned as far as the tanks hold the water.
    """

    def greatest(tablets: int) -> CubicMetres:
        return min(tank, tablets * per_tablet / wanted)

    most = math.inf if product.most is None else product.most
    in_full_tank = min(tank * most / per_tablet, tablets_needed(tank, wanted, per_tablet))
    if rounded_down(in_full_tank) < 1:
        raise TreatmentError(
            product.label,
            f"one tablet in a full tank makes more than the {to_ppm(most):.0f} ppm on its label",
            "use a larger tank or smaller tablets",
        )
    fills = rounded_up(needed / greatest(rounded_down(in_full_tank)))
    tablets = max(fills, tablets_needed(needed, wanted, per_tablet))
    while True:
        each, more = divmod(tablets, fills)
        holds = more * greatest(each + 1) + (fills - more) * greatest(each)
        if rounded_up(needed / holds) <= 1:
            break
        tablets += 1
    counts = [each + 1] * more + [each] * (fills - more)
    made = max(needed, tablets * per_tablet / min(most, TOLERATED * wanted))
    return tuple(
        TankFill(
            volume=volume,
            tablets=count,
            water=volume,
            strength=strength_obtained(count * per_tablet, volume),
        )
        for count, volume in zip(counts, _equally_strong(counts, made, greatest), strict=True)
    )


def _equally_strong(
    counts: Sequence[int], made: CubicMetres, greatest: Callable[[int], CubicMetres]
) -> list[CubicMetres]:
    """Return the volume of each fill, so that all are equally strong as far as tanks hold them."""
    volumes: list[CubicMetres] = []
    tablets = sum(counts)
    for count in counts:
        volumes.append(min(greatest(count), made * count / tablets))
        made -= volumes[-1]
        tablets -= count
    return volumes


def _declared(product: Product, value: float | None, fact: str) -> float:
    """Return a fact of the label that nothing can be mixed without."""
    if not value:
        raise TreatmentError(
            product.label, f"its available {fact} is not known", "enter it from the label"
        )
    return value


def _refuse_above_label(strength: KilogramsPerCubicMetre, product: Product) -> None:
    """Refuse a strength the label does not allow."""
    if product.most is not None and strength > product.most:
        raise TreatmentError(
            product.label,
            f"{to_ppm(strength):.0f} ppm is more than the {to_ppm(product.most):.0f} ppm "
            "its label allows",
            "choose a weaker zone or another product",
        )
