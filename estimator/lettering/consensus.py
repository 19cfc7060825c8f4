"""The scale on which most of what is printed agrees, its error, and who does not agree."""

import math
from collections.abc import Sequence

import numpy as np
from attrs import field, frozen

from estimator.errors import ScaleUnknown
from estimator.measures import MetresPerPixel, Ratio, Share, checked

# A vote off by more than this many of its errors, and by more than this share, does not agree.
MOST_ERRORS = 3.0
LEAST_APART: Share = 0.04
# No number of votes makes a scale surer: all were measured on one drawing by one reader.
SUREST: Share = 0.005
# Where hardly more figures agree than do not, or few do and some do not, the scale may be wrong
# by about this.
CONTESTED: Share = 0.05
CONTESTED_BELOW: Share = 0.55
FEW = 5
FEW_BELOW: Share = 0.8
# Where Tukey's biweight lets go of a vote, in its errors [1]_.
_LETS_GO = 4.685
_ROUNDS = 30
_SHARPEST: Share = 0.01  # when the start is looked for, so that near votes support each other


@frozen(kw_only=True, field_transformer=checked)
class Option:
    """One scale that a printed figure may mean, with its error and how likely it is meant."""

    metres_per_px: MetresPerPixel
    relative_error: Share
    likelihood: Share = 1.0

    def __attrs_post_init__(self) -> None:
        if not (self.metres_per_px > 0 and self.relative_error > 0 and self.likelihood > 0):
            raise ScaleUnknown("scale", "a figure on the plan says 0", "leave it out")


@frozen(kw_only=True, field_transformer=checked)
class Claim:
    """One printed figure and every scale it may mean.

    Parameters
    ----------
    says
        The figure in words: "Bedroom 2, 3.20 m".
    kind
        What it is, in the plural: "room sides".
    weight
        How much it counts; 1 for a plain figure.
    printed
        The figure in metres or square metres; 0 when it is neither.
    room
        Id of the room it is printed for; None when for none.
    """

    says: str
    kind: str
    options: tuple[Option, ...] = field()
    weight: Ratio = 1.0
    printed: Ratio = 0.0
    room: str | None = None

    @options.validator
    def _check_options(self, _attribute: object, options: tuple[Option, ...]) -> None:
        if not options:
            raise ScaleUnknown(self.says, "it says nothing about the scale", "leave it out")


@frozen(kw_only=True, field_transformer=checked)
class Vote:
    """What one printed figure says of the scale, and whether it agrees with the rest."""

    says: str
    kind: str
    metres_per_px: MetresPerPixel
    relative_error: Share
    agrees: bool
    printed: Ratio = 0.0
    room: str | None = None


@frozen(kw_only=True, field_transformer=checked)
class Consensus:
    """The scale most votes agree on, and every vote in the order of the claims."""

    metres_per_px: MetresPerPixel
    relative_error: Share
    votes: tuple[Vote, ...]


def consensus(claims: Sequence[Claim]) -> Consensus:
    """Return the scale on which claims agree most, each counted by its most fitting option.

    The start is the option nearest to most others; from there the weighted mean of logarithms is
    taken anew until it stays, votes far off losing their weight by Tukey's biweight [1]_. With
    all votes near each other this is the mean weighted by inverse variances, and its error theirs.

    Raises
    ------
    ScaleUnknown
        When there is no claim.

    References
    ----------
    .. [1] Beaton and Tukey, The fitting of power series, Technometrics 16 (1974); the constant
       4.685 is usual (from memory).

    Examples
    --------
    >>> def printed(scale):
    ...     option = Option(metres_per_px=scale, relative_error=0.01)
    ...     return Claim(says="", kind="room sides", options=(option,))
    >>> found = consensus([printed(0.0100), printed(0.0101), printed(0.0099), printed(0.0130)])
    >>> round(found.metres_per_px, 4), [vote.agrees for vote in found.votes]
    (0.01, [True, True, True, False])
    """
    if not claims:
        raise ScaleUnknown("scale", "nothing printed says it", "give one known length or area")
    place = _most_agreed(claims)
    chosen = [_fitting(claim, place) for claim in claims]
    for _ in range(_ROUNDS):
        weights = _weights(claims, chosen, place)
        logs = [math.log(option.metres_per_px) for option in chosen]
        moved = float(np.average(logs, weights=weights))
        chosen = [_fitting(claim, moved) for claim in claims]
        if abs(moved - place) < 1e-9:
            break
        place = moved
    votes = tuple(_vote(claim, option, place) for claim, option in zip(claims, chosen, strict=True))
    error = _error(claims, chosen, place)
    if _contested(claims, votes):
        error = max(error, CONTESTED)
    return Consensus(metres_per_px=math.exp(place), relative_error=error, votes=votes)


def _off(option: Option, place: float) -> float:
    """Return how far an option is from a place, in its errors."""
    return abs(math.log(option.metres_per_px) - place) / option.relative_error


def _most_agreed(claims: Sequence[Claim]) -> float:
    """Return the logarithm of the option that most claims have one near to."""
    places = [math.log(option.metres_per_px) for claim in claims for option in claim.options]
    support = np.zeros(len(places))
    for claim in claims:
        logs = np.array([math.log(option.metres_per_px) for option in claim.options])
        spreads = np.array([max(_SHARPEST, option.relative_error) for option in claim.options])
        sure = np.array([option.likelihood for option in claim.options])
        off = (np.array(places)[:, None] - logs) / spreads
        # A sharp vote that fits says more than a wide one that also does.
        heights = sure * np.exp(-0.5 * off**2) * np.sqrt(_SHARPEST / spreads)
        support += claim.weight * heights.max(axis=1)
    return places[int(np.argmax(support))]


def _fitting(claim: Claim, place: float) -> Option:
    """Return the option of a claim that fits a place best."""
    fits = [
        math.log(option.likelihood + 1e-9) - 0.5 * _off(option, place) ** 2
        for option in claim.options
    ]
    return claim.options[int(np.argmax(fits))]


def _weights(claims: Sequence[Claim], chosen: Sequence[Option], place: float) -> list[float]:
    weights = [
        claim.weight
        / option.relative_error**2
        * max(0.0, 1 - (_off(option, place) / _LETS_GO) ** 2) ** 2
        for claim, option in zip(claims, chosen, strict=True)
    ]
    return weights if any(weights) else [1.0] * len(weights)


def _error(claims: Sequence[Claim], chosen: Sequence[Option], place: float) -> float:
    """Return the error of the weighted mean: by what votes claim, or by how far they scatter."""
    weights = np.array(_weights(claims, chosen, place))
    logs = np.array([math.log(option.metres_per_px) for option in chosen])
    claimed = 1 / math.sqrt(float(weights.sum()))
    effective = float(weights.sum()) ** 2 / float((weights**2).sum())
    scatter = math.sqrt(float(np.average((logs - place) ** 2, weights=weights)))
    scattered = scatter / math.sqrt(max(1.0, effective - 1))
    return min(1.0, max(SUREST, claimed, scattered))


def _contested(claims: Sequence[Claim], votes: Sequence[Vote]) -> bool:
    agreeing = [claim.weight for claim, vote in zip(claims, votes, strict=True) if vote.agrees]
    share = sum(agreeing) / sum(claim.weight for claim in claims)
    return share < (FEW_BELOW if len(agreeing) < FEW else CONTESTED_BELOW)


def _vote(claim: Claim, option: Option, place: float) -> Vote:
    apart = abs(math.log(option.metres_per_px) - place)
    return Vote(
        says=claim.says,
        kind=claim.kind,
        metres_per_px=option.metres_per_px,
        relative_error=option.relative_error,
        printed=claim.printed,
        room=claim.room,
        agrees=apart <= max(LEAST_APART, MOST_ERRORS * option.relative_error),
    )
