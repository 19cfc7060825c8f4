"""The client's quote on paper."""

from collections import Counter
from collections.abc import Iterator

from reportlab.lib.colors import HexColor
from reportlab.platypus import BalancedColumns, Flowable, KeepTogether, Spacer, Table, TableStyle

from estimator.documents.colouring import zones_words
from estimator.documents.drawing import plan_scene
from estimator.documents.frame import banner, bullet, figures, page_head
from estimator.documents.lettering import legible
from estimator.documents.palette import MUTED
from estimator.documents.paper import (
    Drawing,
    columns,
    content_width,
    half_width,
    heading,
    printed,
    style,
    table,
    text,
)
from estimator.documents.scene import Scene, Words, moved
from estimator.documents.wording import (
    KIND_WORDS,
    day_words,
    liquid_words,
    product_words,
    scope_words,
)
from estimator.plan.plan import Plan
from estimator.quantities import Units, shown_area, shown_concentration, shown_duration
from estimator.quote.quote import Quote
from estimator.surfaces.totals import by_kind

_PLAN_HEIGHTS = (215.0, 170.0, 135.0)
"""Tried in turn, in points, until all stands on one page; the first where it never does."""

_BODY = 7.6
_SMALL = 6.6


def quote_pdf(plan: Plan, quote: Quote, units: Units) -> bytes:
    """Return the quote as a client may see it: what is done, when, for how much, and on what terms.

    The same plan, quote and units give the same bytes.
    """
    first: bytes | None = None
    for height in _PLAN_HEIGHTS:
        made, pages = printed(
            list(_story(plan, quote, units, height)),
            units,
            title=f"Quote: {quote.title}",
            subject="Quote for surface disinfection by electrostatic spraying",
            foot=f"Quote of {day_words(quote.date)}, estimator {legible(quote.provenance.version)}",
        )
        if pages == 1:
            return made
        first = first or made
    assert first is not None
    return first


def _story(plan: Plan, quote: Quote, units: Units, plan_height: float) -> Iterator[Flowable]:
    yield from page_head("QUOTE", quote, units)
    if quote.provisional:
        said = " ".join(quote.solution.unconfirmed)
        yield banner(f"Provisional until the label is confirmed. {said}", units)
    crew = quote.timetable.crew
    yield figures(
        (
            (str(quote.price.total), "total with tax"),
            (shown_area(quote.schedule.treated, units), "surface treated"),
            (liquid_words(quote.solution.volume, units), "solution sprayed"),
            (
                shown_duration(quote.timetable.on_site),
                f"on site, crew of {crew}" if crew > 1 else "on site, one person",
            ),
        ),
        units,
    )
    yield Spacer(1, 7)
    yield from _drawings(plan, quote, units, plan_height)
    yield Spacer(1, 5)
    yield columns(_treated(quote, units), _solution(quote, units), units)
    yield Spacer(1, 6)
    yield columns(_visit(quote), _price(quote, units), units)
    yield Spacer(1, 6)
    yield from _terms(quote)
    yield KeepTogether([Spacer(1, 8), _acceptance(units), Spacer(1, 5), _provenance(quote)])


def _drawings(plan: Plan, quote: Quote, units: Units, height: float) -> Iterator[Flowable]:
    """Yield a drawing for every storey with rooms, two side by side."""
    used = [storey for storey in plan.storeys if any(r.storey == storey.number for r in plan.rooms)]
    wide = content_width(units) if len(used) == 1 else half_width(units)
    drawings = []
    for storey in used:
        scene = plan_scene(plan, quote, units, storey.number, width=wide, height=height, text=7.6)
        if len(used) > 1:
            scene = _named(scene, legible(storey.name) or f"Storey {storey.number}")
        drawings.append(Drawing(scene))
    if len(drawings) == 1:
        yield drawings[0]
    for at in range(0, len(drawings) if len(drawings) > 1 else 0, 2):
        pair = drawings[at : at + 2]
        yield columns(pair[:1], pair[1:], units)


def _named(scene: Scene, name: str) -> Scene:
    """Return the drawing under the name of its storey."""
    title = Words(text=name, x=scene.width / 2, y=8, size=7.6, colour=MUTED, bold=True)
    return Scene(
        width=scene.width,
        height=scene.height + 14,
        marks=(title, *(moved(mark, 0.0, 14.0) for mark in scene.marks)),
    )


def _treated(quote: Quote, units: Units) -> list[Flowable]:
    totals = by_kind(quote.schedule)
    rows = [
        (
            KIND_WORDS[kind][:1].upper() + KIND_WORDS[kind][1:],
            shown_area(totals[kind].net, units),
            shown_area(totals[kind].treated, units) if totals[kind].treated else "–",
        )
        for kind in KIND_WORDS
        if kind in totals and totals[kind].gross
    ]
    net = sum(total.net for total in totals.values())
    rows.append(("All", shown_area(net, units), shown_area(quote.schedule.treated, units)))
    wide = half_width(units)
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


def _solution(quote: Quote, units: Units) -> list[Flowable]:
    wide = half_width(units)
    rows = [
        (
            f"{shown_concentration(mix.wanted)} {zones_words(mix.zones).lower()}",
            liquid_words(mix.needed, units),
            product_words(mix, units),
            str(len(mix.fills)),
        )
        for mix in sorted(quote.solution.mixes, key=lambda mix: mix.wanted)
    ]
    contact = {round(mix.contact_time) for mix in quote.solution.mixes}
    times = (
        " to ".join(shown_duration(time) for time in sorted({min(contact), max(contact)}))
        if (contact)
        else ""
    )
    said = "Strength is available chlorine; 1 ppm is 1 mg/L."
    if times:
        said += f" Surfaces stay wet for {times}."
    return [
        heading("Solution by strength"),
        text(said, style(_BODY, spaceAfter=3)),
        table(
            ("Strength", "Sprayed", "Product", "Tanks"),
            rows,
            (0.38 * wide, 0.27 * wide, 0.22 * wide, 0.13 * wide),
            numbers=(1, 2, 3),
        ),
    ]


def _visit(quote: Quote) -> list[Flowable]:
    timetable = quote.timetable
    crew = "One person works" if timetable.crew == 1 else f"A crew of {timetable.crew} works"
    said = [f"{crew} on site for {shown_duration(timetable.on_site)}."]
    if timetable.reentry:
        back = sorted(timetable.reentry, key=lambda room: room.at)
        names = {room.room: legible(room.name) or room.room for room in quote.schedule.rooms}
        first, last = back[0], back[-1]
        said.append(
            "Nobody but the protected crew is in a room being treated. By this estimate no room "
            f"is used again before {shown_duration(first.at)} after the crew's arrival, and the "
            f"last, {names.get(last.room, last.room)}, not before {shown_duration(last.at)}."
        )
        reasons = Counter(legible(room.because).split(";")[0] for room in back)
        said.append(
            f"What decides: {', '.join(reasons)}. A later time on the product's label prevails."
        )
    return [heading("Time and re-entry"), *(text(one, style(_BODY, spaceAfter=2)) for one in said)]


def _price(quote: Quote, units: Units) -> list[Flowable]:
    price, wide = quote.price, half_width(units)
    charge = "Treatment as described" + (" (minimum charge)" if price.at_minimum else "")
    rows = [
        (price.tax.label, str(price.tax.amount)),
        ("Total", str(price.total)),
    ]
    spread = (
        f"What is still uncertain would put the total between {quote.range.p10} and "
        f"{quote.range.p90} in 8 cases of 10."
    )
    return [
        heading("Price"),
        table(
            (charge, str(price.charge)),
            rows,
            (0.65 * wide, 0.35 * wide),
            numbers=(1,),
            size=8.2,
            strong_last=True,
        ),
        Spacer(1, 3),
        text(spread, style(_BODY)),
    ]


def _terms(quote: Quote) -> Iterator[Flowable]:
    small = style(_SMALL, bulletIndent=0, leftIndent=7, spaceAfter=1.2)
    parts: list[Flowable] = []
    if quote.assumptions:
        parts.append(heading("Assumed"))
        # The same sentence about several rooms is said once.
        parts += [bullet(says, small) for says in dict.fromkeys(d.says for d in quote.assumptions)]
    if quote.cautions:
        parts.append(heading("To be observed"))
        parts += [bullet(caution.text, small) for caution in quote.cautions]
    if parts:
        yield BalancedColumns(parts, nCols=2, innerPadding=14)


def _acceptance(units: Units) -> Flowable:
    wide = content_width(units)
    label = style(7, colour=MUTED)
    cells = [text(words, label) for words in ("Accepted for the client by", "Signature", "Date")]
    return Table(
        [["", "", "", "", ""], [cells[0], "", cells[1], "", cells[2]]],
        colWidths=[0.36 * wide, 0.03 * wide, 0.36 * wide, 0.03 * wide, 0.22 * wide],
        rowHeights=[16, None],
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
