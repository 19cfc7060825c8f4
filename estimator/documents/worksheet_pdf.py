"""The crew's work sheet: what to mix, where to spray it in which order, what was really used."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from attrs import evolve, frozen
from reportlab.platypus import BalancedColumns, Flowable, KeepTogether, PageBreak, Spacer

from estimator.documents.column_widths import column_widths
from estimator.documents.frame import banner, bullets, figures
from estimator.documents.page_head import page_head
from estimator.documents.palette import ACCENT, ALARM
from estimator.documents.paper import (
    Drawing,
    content_height,
    content_width,
    heading,
    printed,
    style,
    table,
    text,
)
from estimator.documents.recipes import recipe_words
from estimator.documents.route_map import route_map
from estimator.documents.stop_lines import StopLine, stop_lines, storey_words
from estimator.documents.stops import Stop, Tank, stops, tanks
from estimator.documents.wording import (
    day_words,
    keeping_words,
    product_words,
    sprayed_words,
    stock_words,
    water_words,
)
from estimator.plan.plan import Plan
from estimator.quantities import (
    Units,
    shown_concentration,
    shown_duration,
    shown_volume,
)
from estimator.quote.quote import Quote
from estimator.treatment.cautions import Decision
from estimator.visit.emergency import EMERGENCIES

_BOX = "☐"
_WEAR = "protective-wear"
"""Slug of the caution that stands above all others on this sheet."""

_LINE = "______"
_PAGES = 2
"""A crew follows two pages; only where nothing legible fits there are more."""

_MANY = 30
"""From so many stops on all that is said beforehand stands on the first page."""

_FITTED = 100
"""More stops do not fit on two pages at any size."""

_COLUMNS = (
    "",
    "Start",
    "Room",
    "Who",
    "Strength",
    "Mix",
    "Fill in",
    "Spray",
    "Surface",
    "Keep wet",
    "Mask",
    "Wipe, rinse",
    "Closed until",
    "Really used",
    "Done",
)


@frozen
class _Fit:
    """How large rooms, sentences and maps are set."""

    size: float
    padding: float
    sentences: float
    map_share: float


_FITS = (
    _Fit(7.8, 2.4, 7.6, 0.36),
    _Fit(7.4, 2.0, 6.8, 0.31),
    _Fit(7.0, 1.2, 6.5, 0.31),
    _Fit(6.6, 0.8, 6.3, 0.28),
    _Fit(6.2, 0.5, 6.2, 0.26),
    _Fit(6.0, 0.3, 6.0, 0.24),
    _Fit(5.7, 0.1, 5.8, 0.22),
)
"""From comfortable to the least that can still be read at arm's length, tried in turn."""

_MAPS = (0.38, 0.34, 0.31, 0.28)
"""Shares of the page's height that the map may take where there is room for it."""


def worksheet_pdf(plan: Plan, quote: Quote, units: Units) -> bytes:
    """Return the sheet the crew takes along, on two pages where all can be read on two.

    The same inputs give the same bytes.
    """
    found = stops(quote)
    comfortable, pages = _printed(plan, quote, found, units, _FITS[0])
    if pages <= _PAGES or len(found) > _FITTED:
        return comfortable
    for fit in _FITS[1:]:
        made, pages = _printed(plan, quote, found, units, fit)
        if pages <= _PAGES:
            break
    else:
        return comfortable
    for share in _MAPS:
        if share > fit.map_share:
            larger, pages = _printed(plan, quote, found, units, evolve(fit, map_share=share))
            if pages <= _PAGES:
                return larger
    return made


def _printed(
    plan: Plan, quote: Quote, found: tuple[Stop, ...], units: Units, fit: _Fit
) -> tuple[bytes, int]:
    return printed(
        list(_story(plan, quote, found, units, fit)),
        units,
        title=f"Work sheet: {quote.title}",
        subject="Work sheet for surface disinfection by electrostatic spraying",
        foot=f"Work sheet of {day_words(quote.date)}, plan {quote.provenance.plan_digest}",
    )


def _story(
    plan: Plan, quote: Quote, found: tuple[Stop, ...], units: Units, fit: _Fit
) -> Iterator[Flowable]:
    yield from page_head("WORK SHEET", quote, units)
    if quote.provisional:
        yield banner(
            "Do not spray before this is confirmed. " + " ".join(quote.solution.unconfirmed),
            units,
            colour=ALARM,
        )
    timetable, volume = quote.timetable, quote.solution.volume
    for caution in quote.cautions:
        if caution.slug == _WEAR:
            yield banner(caution.text, units, colour=ACCENT)
    yield figures(
        (
            (str(timetable.crew), "person" if timetable.crew == 1 else "people"),
            (str(timetable.sprayers), "of them spraying"),
            (shown_duration(timetable.on_site), "on site"),
            (shown_volume(volume, units), sprayed_words(volume, units)),
            (str(len(tanks(quote))), "mixes to make up"),
        ),
        units,
    )
    if timetable.findings:
        yield Spacer(1, 5)
        yield banner(" ".join(timetable.findings), units)
    yield from _maps(plan, quote, found, units, fit)
    many = len(found) > _MANY
    yield from _beforehand(quote, fit, many=many)
    yield PageBreak()
    yield from _mixing(quote, units)
    yield Spacer(1, 4)
    yield from _rooms(plan, quote, found, units, fit)
    if not many:
        yield from _to_mask(quote, fit)
        yield KeepTogether([Spacer(1, 6), *_emergency(fit)])
    yield KeepTogether([Spacer(1, 5), *_record(units)])


def _maps(
    plan: Plan, quote: Quote, found: Sequence[Stop], units: Units, fit: _Fit
) -> Iterator[Flowable]:
    """Yield each storey with the stops in their order; together they take about half a page."""
    at = {room.room: room.storey for room in quote.schedule.rooms}
    used = [
        storey
        for storey in plan.storeys
        if any(at.get(stop.room) == storey.number for stop in found)
    ]
    for storey in used:
        drawing = Drawing(
            route_map(
                plan,
                quote,
                found,
                units,
                storey.number,
                wide=content_width(units),
                high=fit.map_share * content_height(units) / min(len(used), 2),
                text=8.0,
            )
        )
        name = storey_words(plan, storey.number)
        title = f"The way: {name}" if name else "The way"
        yield KeepTogether([Spacer(1, 5), heading(title), drawing])


def _mixing(quote: Quote, units: Units) -> Iterator[Flowable]:
    yield heading("Mixing, tank by tank")
    rules = [recipe_words(mix, quote.solution.label) for mix in quote.solution.mixes]
    yield text(" ".join([keeping_words(quote.solution), *rules]), style(7.4, spaceAfter=2))
    wide = content_width(units)

    def row(alike: Sequence[Tank]) -> tuple[str, ...]:
        fill, numbers = alike[0].fill, [tank.number for tank in alike]
        return (
            str(numbers[0]) if len(numbers) == 1 else f"{numbers[0]}–{numbers[-1]}",
            shown_concentration(alike[0].mix.wanted),
            water_words(fill.water, quote.solution, units),
            product_words(fill, units),
            f"{shown_volume(fill.volume, units)} of {shown_concentration(fill.strength)}",
            _LINE,
            _BOX * len(numbers),
        )

    yield table(
        ("Mix", "Strength", "Water", "Add", "Gives", "Really added", "A box for each, done"),
        [row(list(alike)) for _, alike in groupby(tanks(quote), key=lambda tank: tank.fill)],
        [share * wide for share in (0.07, 0.11, 0.14, 0.14, 0.2, 0.11, 0.23)],
        size=7.8,
    )
    for mix in quote.solution.mixes:
        if mix.stock:
            yield text(f"Or {stock_words(mix, units)}", style(7.4, spaceBefore=2))


def _rooms(
    plan: Plan, quote: Quote, found: tuple[Stop, ...], units: Units, fit: _Fit
) -> Iterator[Flowable]:
    yield heading("Rooms in order")
    yield text(
        "Numbers as on the plan; times are hours and minutes after arrival. Work backwards to the "
        "way out; nobody walks through a wet room.",
        style(7.4, spaceAfter=2),
    )
    rows = [_row(line) for line in stop_lines(plan, quote, found, units)]
    yield table(
        _COLUMNS,
        rows,
        column_widths(
            _COLUMNS, rows, fit.size, content_width(units), wrapping=("Room", "Wipe, rinse")
        ),
        size=fit.size,
        padding=fit.padding,
    )


def _row(line: StopLine) -> tuple[str, ...]:
    return (
        str(line.number),
        line.start,
        f"{line.room} ({line.storey})" if line.storey else line.room,
        str(line.person),
        line.strength,
        line.tanks,
        line.fill_in or "–",
        line.spray,
        line.surface + (f" ×{line.passes}" if line.passes > 1 else ""),
        line.keep_wet,
        "".join(one.mark for one in line.mask) or "–",
        line.wipe or "–",
        line.closed_until,
        _LINE,
        _BOX,
    )


def _beforehand(quote: Quote, fit: _Fit, *, many: bool) -> Iterator[Flowable]:
    """Yield what the crew must observe; what only the client decides on stays on the quote."""
    said = [
        *quote.solution.warnings,
        *(
            caution.text
            for caution in quote.cautions
            if caution.where is not Decision.QUOTE and caution.slug != _WEAR
        ),
    ]
    yield BalancedColumns(
        [
            heading("Before and while spraying"),
            *bullets(said, fit.sentences),
            *((*_to_mask(quote, fit), Spacer(1, 3), *_emergency(fit)) if many else ()),
        ],
        nCols=2,
        innerPadding=14,
    )


def _to_mask(quote: Quote, fit: _Fit) -> Iterator[Flowable]:
    """Yield what the letters of the column to mask stand for."""
    said = [f"{one.mark}: {one.says}" for one, _ in quote.timetable.precautions]
    if said:
        yield Spacer(1, 3)
        yield heading("Mask, remove or switch off before spraying")
        yield text("; ".join(said) + ".", style(fit.sentences))


def _emergency(fit: _Fit) -> Iterator[Flowable]:
    """Yield what to do when something goes wrong."""
    yield heading("If something goes wrong")
    yield text(
        "Label and safety data sheet come first. Emergency services ________ "
        "Poison centre ____________ Nearest tap or eye-wash ____________",
        style(fit.sentences),
    )
    yield from bullets((f"{one.happened}: {one.do}" for one in EMERGENCIES), fit.sentences)


def _record(units: Units) -> Iterator[Flowable]:
    wide = content_width(units)
    blank = "_" * 14
    yield heading("What it really took")
    yield table(
        ("Arrived", "Left", "People", "Solution left over", "Product used", "Signed"),
        [(blank,) * 6],
        [wide / 6] * 6,
        size=9,
    )
    yield Spacer(1, 3)
    yield text("Remarks: " + "_" * 110, style(7.6))
