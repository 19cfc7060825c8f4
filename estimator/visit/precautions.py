"""What must be masked, removed or switched off in a room before it is sprayed."""

from collections.abc import Collection, Iterable

from attrs import frozen

from estimator.measures import KilogramsPerCubicMetre, checked

EVERY_USE = "*"


@frozen(kw_only=True, field_transformer=checked)
class Precaution:
    """One kind of thing that mist or solution would spoil or set off.

    Parameters
    ----------
    mark
        A letter that stands for it in narrow columns.
    says
        What the crew does about it.
    uses
        Slugs of the room uses where it is to be looked for; ``*`` stands for every one.
    kinds
        Slugs of furniture that bring it along in any room.
    above
        Strength above which it matters.
    """

    slug: str
    mark: str
    says: str
    uses: tuple[str, ...] = ()
    kinds: tuple[str, ...] = ()
    above: KilogramsPerCubicMetre = 0.0
    source: str
    as_of: str


def called_for(
    precautions: Iterable[Precaution],
    use: str,
    kinds: Collection[str],
    strength: KilogramsPerCubicMetre,
) -> tuple[Precaution, ...]:
    """Return the precautions for a room of a use with such furniture at a strength."""
    return tuple(
        one
        for one in precautions
        if strength > one.above
        and (EVERY_USE in one.uses or use in one.uses or not set(kinds).isdisjoint(one.kinds))
    )
