"""What papers cannot write, told to whoever makes them."""

from collections.abc import Iterable, Iterator

from estimator.documents.lettering import MISSING, is_legible, plain
from estimator.plan.plan import Plan
from estimator.quote.firm import Firm
from estimator.quote.recipient import Recipient

_MOST_NAMED = 3


def unwritten(words: Iterable[str]) -> str:
    """Return one sentence on words with letters that no face has; nothing where there are none.

    >>> unwritten(["Kitchen", "रसोई 2"])
    'Papers have no letters for “रसोई 2” and show ? there: give a spelling in other letters.'
    """
    lost = list(dict.fromkeys(plain(one) for one in words if not is_legible(one)))
    if not lost:
        return ""
    named = [f"“{one}”" for one in lost[:_MOST_NAMED]]
    if len(lost) > _MOST_NAMED:
        named.append(f"{len(lost) - _MOST_NAMED} more")
    *before, last = named
    listed = f"{', '.join(before)} and {last}" if before else last
    return (
        f"Papers have no letters for {listed} and show {MISSING} there: "
        "give a spelling in other letters."
    )


def words_of(plan: Plan, firm: Firm, recipient: Recipient | None = None) -> Iterator[str]:
    """Yield what people wrote that stands on the papers of a plan."""
    yield plan.title
    yield from (storey.name for storey in plan.storeys)
    yield from (room.name for room in plan.rooms)
    yield from (firm.name, *firm.address, *firm.contact, firm.registration)
    if recipient:
        yield from (recipient.client, *recipient.address, recipient.site, *recipient.place)
