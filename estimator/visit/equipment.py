"""The sprayer and the crew's pace, as the book states them."""

from attrs import frozen

from estimator.errors import QuantityError
from estimator.measures import (
    CubicMetres,
    CubicMetresPerSecond,
    Metres,
    PerSecond,
    Ratio,
    Seconds,
    SecondsPerSquareMetre,
    Share,
    SquareMetresPerSecond,
    checked,
)


@frozen(kw_only=True, field_transformer=checked)
class Sprayer:
    """A sprayer by its data sheet or by trial with water.

    Parameters
    ----------
    droplets
        Volume median diameter of its droplets; None where its papers were not read.
    """

    slug: str
    label: str
    tank: CubicMetres
    flow: CubicMetresPerSecond
    battery: Seconds
    droplets: Metres | None = None
    source: str
    as_of: str

    def __attrs_post_init__(self) -> None:
        if not min(self.tank, self.flow, self.battery) > 0:
            raise QuantityError(
                self.label, "its tank, flow or battery is 0", "give each a figure above 0"
            )


@frozen(kw_only=True, field_transformer=checked)
class Pace:
    """How fast a person works in rooms of a use; use ``*`` stands for every other.

    Parameters
    ----------
    spray
        Surface sprayed in a time, walking and aiming included.
    prepare
        Time per floor area to open, move, cover and mask before spraying and to undo it after;
        half of it falls before and half after.
    wipe
        Surface wiped and rinsed in a time.
    air_changes
        Air changes in a time once windows or ventilation are open.
    """

    use: str
    spray: SquareMetresPerSecond
    prepare: SecondsPerSquareMetre
    wipe: SquareMetresPerSecond
    air_changes: PerSecond
    source: str
    as_of: str

    def __attrs_post_init__(self) -> None:
        if not min(self.spray, self.wipe, self.air_changes) > 0:
            raise QuantityError(
                f"pace for {self.use}",
                "its spraying, wiping or air changes are 0",
                "give each a figure above 0",
            )


@frozen(kw_only=True, field_transformer=checked)
class SiteTimes:
    """Times that do not grow with the rooms.

    Parameters
    ----------
    arrive
        Setting up, signs and protective wear on.
    leave
        Protective wear off, cleaning down, loading.
    mix
        Making up one tank.
    refill
        Walking back and changing the tank, mixing excluded.
    battery_change
        Changing the battery.
    clearing_removal
        Share of what is in the air that must have left before people return.
    mixing_factor
        By how much imperfect mixing of the air slows clearing (1 for perfect mixing, up to 10).
    """

    arrive: Seconds
    leave: Seconds
    mix: Seconds
    refill: Seconds
    battery_change: Seconds
    clearing_removal: Share
    mixing_factor: Ratio
    source: str
    as_of: str

    def __attrs_post_init__(self) -> None:
        if not self.clearing_removal < 1:
            raise QuantityError(
                "clearing removal", "no time clears everything", "give a share below 1"
            )
        if not 1 <= self.mixing_factor <= 10:
            raise QuantityError(
                "mixing factor", f"it is {self.mixing_factor:g}", "give one from 1 to 10"
            )


@frozen(kw_only=True, field_transformer=checked)
class WorkingTime:
    """What the law or the firm says of breaks and of the length of a day.

    Parameters
    ----------
    break_after
        Nobody works longer than this without a break.
    break_length
        How long that break is.
    longest_day
        No visit of one crew should last longer.
    """

    break_after: Seconds
    break_length: Seconds
    longest_day: Seconds
    source: str
    as_of: str

    def __attrs_post_init__(self) -> None:
        if not self.break_after > 0:
            raise QuantityError("working time", "the break is due at once", "give a time above 0")
