"""The client's quote on paper."""

import re
from collections.abc import Iterable, Iterator
from contextlib import suppress

from reportlab.lib.colors import HexColor
from reportlab.platypus import (
    BalancedColumns,
    Flowable,
    KeepTogether,
    PageBreak,
    Spacer,
    Table,
    TableStyle,
)

from estimator.documents.colouring import zones_words
from estimator.documents.drawing import plan_scene
from estimator.documents.frame import banner, bullets, figures, page_head
from estimator.documents.lettering import legible
from estimator.documents.palette import MUTED
from estimator.documents.paper import (
    Drawing,
    column_width,
    columns,
    content_width,
    heading,
    printed,
    style,
    table,
    text,
)
from estimator.documents.scene import Scene, Words, moved
from estimator.documents.wording import (
    KIND_WORDS,
    assumed_words,
    day_words,
    listed,
    product_words,
    scope_words,
    sprayed_words,
)
from estimator.errors import DocumentError
from estimator.plan.plan import Plan
from estimator.plan.storey import Storey
from estimator.quantities import (
    Units,
    shown_area,
    shown_concentration,
    shown_duration,
    shown_volume,
)
from estimator.quote.quote import Quote
from estimator.surfaces.totals import by_kind
from estimator.treatment.solution import Mix, Solution

_PLAN_HEIGHTS = (240.0, 200.0, 165.0, 135.0, 110.0)
"""Heights of the plan in points, tried in turn until all stands on one page."""

_PLAN_SHARE = 0.6
"""Share of the width that the plan takes where all stands on one page."""

_NEAR = 0.1
"""Solutions stronger than wanted by more than this share are said to be."""

_PLAN_TEXT = 7.4
_BODY = 7.6
_SMALL = 6.3
_ASIDE = re.compile(r" \(.*?\)|;.*")
"""What a client need not read: the source of a reason, and what is said once for all rooms."""


def quote_pdf(plan: Plan, quote: Quote, units: Units) -> bytes:
    """Return the quote as a client may see it: what is done, when, for how much, on what terms.

    All on one page where it fits; else the offer with its signature on the first, and what it rests
    on behind it. The same plan, quote and units give the same bytes.
    """
    for height in _PLAN_HEIGHTS:
        with suppress(DocumentError):
            made, pages = _printed(quote, units, _on_one_page(plan, quote, units, height))
            if pages == 1:
                return made
    made, _ = _printed(quote, units, _on_more_pages(plan, quote, units))
    return made


def _printed(quote: Quote, units: Units, story: Iterable[Flowable]) -> tuple[bytes, int]:
    return printed(
        list(story),
        units,
        title=f"Quote: {quote.title}",
        subject="Quote for surface disinfection by electrostatic spraying",
        foot=f"Quote of {day_words(quote.date)}",
    )


def _on_one_page(plan: Plan, quote: Quote, units: Units, height: float) -> Iterator[Flowable]:
    yield from _offer(plan, quote, units, height, _assumptions(quote))
    yield from _balanced(_cautions(quote))
    yield KeepTogether([_acceptance(units), Spacer(1, 4), _provenance(quote)])


def _on_more_pages(plan: Plan, quote: Quote, units: Units) -> Iterator[Flowable]:
    yield from _offer(plan, quote, units, _PLAN_HEIGHTS[0], [])
    yield text(
        "The assumptions and cautions on the pages that follow are part of this quote.",
        style(_BODY),
    )
    yield _acceptance(units)
    yield PageBreak()
    yield from _balanced([*_assumptions(quote), *_cautions(quote)])
    yield Spacer(1, 8)
    yield _provenance(quote)


def _offer(
    plan: Plan, quote: Quote, units: Units, height: float, rests_on: list[Flowable]
) -> Iterator[Flowable]:
    """Yield what is offered: one storey beside its figures, several above them in pairs."""
    yield from _opening(quote, units)
    used = {room.storey for room in plan.rooms}
    storeys = [storey for storey in plan.storeys if storey.number in used]
    half = column_width(units)
    if len(storeys) == 1:
        beside = column_width(units, 1 - _PLAN_SHARE)
        wide = column_width(units, _PLAN_SHARE)
        yield columns(
            [_drawing(plan, quote, units, storeys[0], wide, height)],
            [*_solution(quote, units, beside), Spacer(1, 7), *_price(quote, beside)],
            units,
            share=_PLAN_SHARE,
        )
        yield Spacer(1, 5)
        right = [*_visit(quote), Spacer(1, 5), *rests_on]
        yield columns(_treated(quote, units, half), right, units)
    else:
        drawings = [_drawing(plan, quote, units, one, half, 0.7 * height) for one in storeys]
        for at in range(0, len(drawings), 2):
            yield columns(drawings[at : at + 1], drawings[at + 1 : at + 2], units)
            yield Spacer(1, 5)
        right = [*_solution(quote, units, half), Spacer(1, 7), *_price(quote, half)]
        yield columns(_treated(quote, units, half), right, units)
        yield Spacer(1, 5)
        yield from (*_visit(quote), Spacer(1, 5), *rests_on)
    yield Spacer(1, 4)


def _opening(quote: Quote, units: Units) -> Iterator[Flowable]:
    yield from page_head("QUOTE", quote, units)
    if quote.provisional:
        said = " ".join(quote.solution.unconfirmed)
        yield banner(f"Provisional until the label is confirmed. {said}", units)
    crew = quote.timetable.crew
    volume = quote.solution.volume
    yield figures(
        (
            (str(quote.price.total), "total with tax"),
            (shown_area(quote.schedule.treated, units), "surface treated"),
            (shown_volume(volume, units), sprayed_words(volume, units)),
            (
                shown_duration(quote.timetable.on_site),
                f"on site, crew of {crew}" if crew > 1 else "on site, one person",
            ),
        ),
        units,
    )
    yield Spacer(1, 7)


def _drawing(
    plan: Plan, quote: Quote, units: Units, storey: Storey, wide: float, height: float
) -> Flowable:
    """Return the drawing of a storey, under its name where there are several."""
    size = _PLAN_TEXT
    scene = plan_scene(plan, quote, units, storey.number, width=wide, height=height, text=size)
    if len(plan.storeys) == 1:
        return Drawing(scene)
    name = legible(storey.name) or f"Storey {storey.number + 1}"
    title = Words(text=name, x=wide / 2, y=size, size=size, colour=MUTED, bold=True)
    marks = (title, *(moved(mark, 0.0, 1.9 * size) for mark in scene.marks))
    return Drawing(Scene(width=wide, height=scene.height + 1.9 * size, marks=marks))


def _treated(quote: Quote, units: Units, wide: float) -> list[Flowable]:
    totals = by_kind(quote.schedule)
    rows = [
        (
            KIND_WORDS[kind][:1].upper() + KIND_WORDS[kind][1:],
            shown_area(totals[kind].net, units),
            shown_area(totals[kind].treated, units),
        )
        for kind in KIND_WORDS
        if kind in totals and totals[kind].treated
    ]
    net = sum(total.net for total in totals.values() if total.treated)
    rows.append(("Together", shown_area(net, units), shown_area(quote.schedule.treated, units)))
    return [
        heading("What is treated"),
        text(scope_words(quote, units), style(_BODY, spaceAfter=3)),
        table(
            ("Surface", "There is", "Treated"),
            rows,
            (0.5 * wide, 0.25 * wide, 0.25 * wide),
            numbers=(1, 2),
            strong_last=True,
        ),
    ]


def _solution(quote: Quote, units: Units, wide: float) -> list[Flowable]:
    rows = [
        (
            _strength_words(mix, quote.solution),
            shown_volume(mix.needed, units),
            product_words(mix, units),
            str(len(mix.fills)),
        )
        for mix in sorted(quote.solution.mixes, key=lambda mix: mix.wanted)
    ]
    said = "Strength is available chlorine; 1 ppm is 1 mg/L."
    if contacts := sorted(mix.contact_time for mix in quote.solution.mixes):
        times = dict.fromkeys(map(shown_duration, (contacts[0], contacts[-1])))
        said += f" Surfaces stay wet for {' to '.join(times)}."
    return [
        heading("Solution by strength"),
        text(said, style(_BODY, spaceAfter=3)),
        table(
            ("Strength", "Sprayed", "Product", "Tanks"),
            rows,
            (0.46 * wide, 0.21 * wide, 0.21 * wide, 0.12 * wide),
            numbers=(1, 2, 3),
        ),
    ]


def _strength_words(mix: Mix, solution: Solution) -> str:
    """Return the strength wanted and where, and the one obtained where whole tablets miss it."""
    said = f"{shown_concentration(mix.wanted)} {zones_words(mix, solution)}"
    if mix.strength > (1 + _NEAR) * mix.wanted:
        said += f", mixed at up to {shown_concentration(mix.strength)}"
    return said


def _visit(quote: Quote) -> list[Flowable]:
    timetable = quote.timetable
    crew = "One person works" if timetable.crew == 1 else f"A crew of {timetable.crew} works"
    said = [
        f"{crew} on site for {shown_duration(timetable.on_site)}.",
        "Nobody but the protected crew is in a room being treated.",
    ]
    if timetable.reentry:
        back = sorted(timetable.reentry, key=lambda room: room.at)
        names = {room.room: room.name or room.room for room in quote.schedule.rooms}
        first, last = back[0], back[-1]
        reasons = dict.fromkeys(_ASIDE.sub("", room.because) for room in back)
        said += [
            f"By this estimate no room is used again before {shown_duration(first.at)} after the "
            f"crew's arrival, and the last, {names.get(last.room, last.room)}, not before "
            f"{shown_duration(last.at)}; what decides is {listed(list(reasons))}.",
            "A later time on the product's label prevails.",
        ]
    return [heading("Time and re-entry"), text(" ".join(said), style(_BODY))]


def _price(quote: Quote, wide: float) -> list[Flowable]:
    price = quote.price
    charge = "Treatment as described" + (" (minimum charge)" if price.at_minimum else "")
    rows = [
        (charge, str(price.charge)),
        *((line.label, str(line.amount)) for line in price.taxes),
        ("Total", str(price.total)),
    ]
    spread = (
        f"What is still uncertain would put the total between {quote.range.p10} and "
        f"{quote.range.p90} in 8 cases of 10."
    )
    return [
        heading("Price"),
        table((), rows, (0.65 * wide, 0.35 * wide), numbers=(1,), size=8.2, strong_last=True),
        Spacer(1, 3),
        text(spread, style(_BODY)),
    ]


def _assumptions(quote: Quote) -> list[Flowable]:
    said = assumed_words(quote)
    return [heading("Assumed"), *bullets(said, _SMALL)] if said else []


def _cautions(quote: Quote) -> list[Flowable]:
    said = [caution.text for caution in quote.cautions]
    return [heading("To be observed"), *bullets(said, _SMALL)] if said else []


def _balanced(parts: list[Flowable]) -> list[Flowable]:
    """Return parts in two columns of about equal length."""
    return [BalancedColumns(parts, nCols=2, innerPadding=14)] if parts else []


def _acceptance(units: Units) -> Flowable:
    wide = content_width(units)
    label = style(7, colour=MUTED)
    cells = [text(words, label) for words in ("Accepted for the client by", "Signature", "Date")]
    return Table(
        [[""] * 5, [cells[0], "", cells[1], "", cells[2]]],
        colWidths=[0.36 * wide, 0.03 * wide, 0.36 * wide, 0.03 * wide, 0.22 * wide],
        rowHeights=[22, None],
        style=TableStyle(
            [
                *(
                    ("LINEBELOW", (column, 0), (column, 0), 0.6, HexColor(MUTED))
                    for column in (0, 2, 4)
                ),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("TOPPADDING", (0, 0), (-1, -1), 1),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 1),
            ]
        ),
        hAlign="LEFT",
    )


def _provenance(quote: Quote) -> Flowable:
    made = quote.provenance
    return text(
        f"To reproduce: plan {made.plan_digest}, book {made.book_digest}, job {made.job_digest}, "
        f"seed {made.seed}, version {made.version}.",
        style(5.8, colour=MUTED),
    )
