"""A plan read from pixels, with what its lettering says: names, uses, and the scale."""

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from attrs import evolve, frozen

from estimator.lettering.claims import AREAS, DOORS, claims
from estimator.lettering.consensus import Consensus, Vote, consensus
from estimator.lettering.halls import halls_joined
from estimator.lettering.joining import joined
from estimator.lettering.labels import labels_of
from estimator.lettering.line import Line
from estimator.lettering.naming import Placed, named, placed
from estimator.lettering.pairs import settled
from estimator.lettering.parting import parted
from estimator.lettering.pieces import together
from estimator.lettering.pointing import Pointed, pointed
from estimator.lettering.vocabulary import vocabulary
from estimator.lettering.words import lines_of
from estimator.measures import MetresPerPixel
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.edits import rescaled
from estimator.plan.plan import Plan
from estimator.plan.storey import Scale
from estimator.reading import scale as scales
from estimator.reading.picture import Picture
from estimator.surfaces.uses import RoomUse


@frozen(kw_only=True)
class Lettered:
    """A plan whose rooms are called as they are lettered, and the labels by where they stand."""

    plan: Plan
    labels: Placed


@frozen(kw_only=True)
class Scaled:
    """A plan with the scale its lettering gives, and every vote for it."""

    plan: Plan
    votes: tuple[Vote, ...]


def lettered(
    plan: Plan,
    picture: Picture,
    uses: Iterable[RoomUse],
    lines: Sequence[Line] | None = None,
) -> Lettered:
    """Return the plan with its rooms named by the lettering of its picture.

    Parameters
    ----------
    uses
        The book's, whose words the names are looked for in.
    lines
        What is lettered on the picture, where that was read before.
    """
    words = vocabulary(uses)
    read = lines_of(picture, plan) if lines is None else lines
    labels = settled(labels_of(together(read), words))
    found = placed(labels, plan)
    scale = _first_scale(plan, found, picture)
    meant = pointed(plan, found, picture, scale)
    given = {label: each.room for each in meant for label in each.tag.labels}
    plan = joined(plan, placed(labels, plan, given), scale)
    plan = halls_joined(plan, placed(labels, plan, given))
    plan = parted(plan, placed(labels, plan, given), scale)
    found = placed(labels, plan, given)
    plan = evolve(plan, doubts=(*plan.doubts, *map(_standing_outside, meant)))
    return Lettered(plan=named(plan, found, words), labels=found)


def _standing_outside(meant: Pointed) -> Doubt:
    says = f"The name {meant.tag.name} stands outside the room it was given to."
    return Doubt(aspect=Aspect.USE, room=meant.room, says=says, confidence=meant.sure)


def _first_scale(plan: Plan, found: Placed, picture: Picture) -> MetresPerPixel | None:
    """Return the scale that the figures say before any room is corrected; None without figures."""
    raised = claims(plan, found, picture)
    if all(claim.kind == DOORS for claim in raised):
        return None
    return consensus(raised).metres_per_px


def scaled(found: Lettered, picture: Picture) -> Scaled:
    """Return the plan sized by what is printed on it, or else by its doors, if by anything."""
    plan = found.plan
    raised = claims(plan, found.labels, picture)
    if not raised:
        return Scaled(plan=plan, votes=())
    agreed = consensus(raised)
    plan = rescaled(plan, _scale(agreed, plan))
    return Scaled(
        plan=evolve(plan, doubts=plan.doubts + tuple(_outliers(agreed, plan))), votes=agreed.votes
    )


def _scale(agreed: Consensus, plan: Plan) -> Scale:
    if all(vote.kind == DOORS for vote in agreed.votes):
        return scales.scale_from_doors(plan.rooms)
    return Scale(
        metres_per_px=agreed.metres_per_px,
        relative_error=agreed.relative_error,
        basis=basis(agreed.votes),
    )


def basis(votes: Sequence[Vote]) -> str:
    """Return in words what a scale was found from.

    >>> vote = Vote(
    ...     says="", kind="room sides", metres_per_px=0.01, relative_error=0.01, agrees=True
    ... )
    >>> basis([vote, vote, evolve(vote, agrees=False)])
    '2 of 3 printed figures (2 room sides)'
    """
    printed = [vote for vote in votes if vote.kind != DOORS]
    kinds = Counter(vote.kind for vote in printed if vote.agrees)
    agreeing = sum(kinds.values())
    listed = ", ".join(
        f"{count} {kind}" if count > 1 else _one(kind) for kind, count in kinds.items()
    )
    figures = "printed figure" if len(printed) == 1 else "printed figures"
    counted = f"{agreeing}" if agreeing == len(printed) else f"{agreeing} of {len(printed)}"
    return f"{counted} {figures} ({listed})"


def _one(kind: str) -> str:
    return f"1 {kind.removesuffix('s')}"


def _outliers(agreed: Consensus, plan: Plan) -> Iterator[Doubt]:
    """Yield in words which rooms are printed otherwise than drawn, one doubt a room."""
    for room in plan.rooms:
        off = [vote for vote in agreed.votes if vote.room == room.id and not vote.agrees]
        if not off:
            continue
        ratios = [agreed.metres_per_px / vote.metres_per_px for vote in off]
        printed = " and ".join(_shown(vote, 1.0) for vote in off)
        drawn = " and ".join(_shown(vote, ratio) for vote, ratio in zip(off, ratios, strict=True))
        yield Doubt(
            aspect=Aspect.OUTLINE,
            room=room.id,
            says=f"{room.name} is printed {printed} but drawn {drawn}.",
            confidence=0.5,
            relative_error=min(1.0, max(abs(math.log(ratio)) for ratio in ratios) / 2),
        )


def _shown(vote: Vote, ratio: float) -> str:
    """Return the printed figure of a vote, its lengths multiplied by a ratio."""
    if vote.kind == AREAS:
        return f"{vote.printed * ratio**2:.1f} m²"
    return f"{vote.printed * ratio:.1f} m"
