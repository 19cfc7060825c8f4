"""The crew's work sheet for a phone: one page that needs no network, with boxes to tick and fill.

What is ticked and written stays on the phone, and can be saved as a table.
"""

from collections.abc import Iterable, Iterator, Sequence
from html import escape
from importlib.resources import files
from itertools import groupby

from estimator.documents.lettering import legible
from estimator.documents.recipes import recipe_words
from estimator.documents.route_map import route_map
from estimator.documents.stop_lines import StopLine, clock, stop_lines, storey_words
from estimator.documents.stops import Stop, Tank, stops, tanks
from estimator.documents.svg import svg
from estimator.documents.wording import (
    day_words,
    keeping_words,
    product_words,
    sprayed_words,
    stock_words,
    water_words,
)
from estimator.measures import Seconds
from estimator.plan.plan import Plan
from estimator.quantities import Units, shown_concentration, shown_duration, shown_volume
from estimator.quote.quote import Quote
from estimator.treatment.cautions import Decision
from estimator.visit.emergency import EMERGENCIES
from estimator.visit.precautions import Precaution

_WEAR = "protective-wear"
"""Slug of the caution that stands above all others on this sheet."""

_WAYS = 4
"""Colours of the ways of the persons who spray, as on the map."""

_MAP_WIDE, _MAP_HIGH = 700.0, 760.0
_LETTERS = 15.0


def worksheet_html(plan: Plan, quote: Quote, units: Units) -> str:
    """Return the sheet as one file; the same inputs give the same text."""
    found = stops(quote)
    lines = stop_lines(plan, quote, found, units)
    shared = _shared(lines)
    title = legible(quote.title) or "Site"
    body = "\n".join(
        [
            *_head(quote, title, units),
            *_everywhere(shared),
            *_maps(plan, quote, found, units),
            *_beforehand(quote),
            *_mixing(quote, units),
            *_rooms(quote, found, lines, shared),
            *_emergency(),
            *_record(quote),
        ]
    )
    policy = "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'"
    return f"""<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="{policy}">
<title>Work sheet: {escape(title)}</title>
<style>
{_packaged("sheet.css")}</style>
</head>
<body data-sheet="work-sheet-{quote.provenance.plan_digest}-{escape(quote.date)}">
{body}
<script>
{_packaged("sheet.js")}</script>
</body>
</html>
"""


def _packaged(name: str) -> str:
    return (files("estimator.documents") / "phone" / name).read_text("utf-8")


def _shared(lines: Sequence[StopLine]) -> tuple[Precaution, ...]:
    """Return what is to be masked at every stop; nothing where there is only one."""
    if len(lines) < 2:
        return ()
    return tuple(one for one in lines[0].mask if all(one in line.mask for line in lines))


def _head(quote: Quote, title: str, units: Units) -> Iterator[str]:
    timetable, volume = quote.timetable, quote.solution.volume
    yield (
        '<nav><a href="#way">Way</a><a href="#mixes">Mixes</a><a href="#rooms">Rooms</a>'
        '<a href="#emergency" class="alarm">Emergency</a></nav>'
    )
    yield f"<h1>{escape(title)}</h1>"
    yield f'<p class="muted">Work sheet of {escape(day_words(quote.date))}</p>'
    if quote.provisional:
        yield '<div class="banner alarm"><b>Do not spray before this is confirmed.</b>'
        yield _listed(quote.solution.unconfirmed)
        yield "</div>"
    for caution in quote.cautions:
        if caution.slug == _WEAR:
            yield f'<p class="banner">{escape(caution.text)}</p>'
    for finding in timetable.findings:
        yield f'<p class="banner doubt">{escape(legible(finding))}</p>'
    yield '<div class="figures">'
    for figure, what in (
        (str(timetable.crew), "person" if timetable.crew == 1 else "people"),
        (str(timetable.sprayers), "spraying"),
        (shown_duration(timetable.on_site), "on site"),
        (shown_volume(volume, units), sprayed_words(volume, units)),
        (str(len(tanks(quote))), "mixes"),
    ):
        yield f"<div><b>{escape(figure)}</b>{escape(what)}</div>"
    yield "</div>"
    yield _written("arrived", "Arrived at; times of day follow from it", kind="time")


def _everywhere(shared: Sequence[Precaution]) -> Iterator[str]:
    """Yield what is to be masked in every room, which the rooms' own cards only name."""
    if shared:
        yield '<h2 id="every-room">In every room</h2><div class="banner">'
        yield "<p>Mask, remove or switch off before spraying; each room has one box for it all.</p>"
        yield _listed(map(_masked, shared))
        yield "</div>"


def _maps(plan: Plan, quote: Quote, found: tuple[Stop, ...], units: Units) -> Iterator[str]:
    yield '<h2 id="way">The way</h2>'
    at = {room.room: room.storey for room in quote.schedule.rooms}
    for storey in plan.storeys:
        if not any(at.get(stop.room) == storey.number for stop in found):
            continue
        name = storey_words(plan, storey.number)
        drawn = route_map(
            plan,
            quote,
            found,
            units,
            storey.number,
            wide=_MAP_WIDE,
            high=_MAP_HIGH,
            text=_LETTERS,
        )
        yield "<div>"
        if name:
            yield f"<h3>{escape(name)}</h3>"
        size = f"map-{storey.number}"
        yield f'<input type="checkbox" class="large map-size" id="{size}">'
        yield f'<label class="map-size" for="{size}">larger, to be moved with a finger</label>'
        yield f'<div class="map">{svg(drawn, f"The way {name}".strip())}</div>'
        yield "</div>"


def _beforehand(quote: Quote) -> Iterator[str]:
    yield "<h2>Before and while spraying</h2>"
    yield _listed(
        [
            *quote.solution.warnings,
            *(
                caution.text
                for caution in quote.cautions
                if caution.where is not Decision.QUOTE and caution.slug != _WEAR
            ),
        ]
    )


def _mixing(quote: Quote, units: Units) -> Iterator[str]:
    yield '<h2 id="mixes">Mixing, tank by tank</h2>'
    rules = [recipe_words(mix, quote.solution.label) for mix in quote.solution.mixes]
    yield f"<p>{escape(' '.join([keeping_words(quote.solution), *rules]))}</p>"
    for _, alike in groupby(tanks(quote), key=lambda tank: tank.fill):
        yield from _tanks(list(alike), quote, units)
    for mix in quote.solution.mixes:
        if mix.stock:
            yield f"<p>Or {escape(stock_words(mix, units))}</p>"


def _tanks(alike: list[Tank], quote: Quote, units: Units) -> Iterator[str]:
    """Yield mixes that are made up alike, with a box for each."""
    first, last = alike[0].number, alike[-1].number
    name = f"Mix {first}" if first == last else f"Mixes {first} to {last}, each"
    fill = alike[0].fill
    yield f'<section class="card" data-name="{name}"><h3>{name}</h3><dl>'
    for what, how in (
        ("Strength", shown_concentration(alike[0].mix.wanted)),
        ("Water", water_words(fill.water, quote.solution, units)),
        ("Add", product_words(fill, units)),
        ("Gives", f"{shown_volume(fill.volume, units)} of {shown_concentration(fill.strength)}"),
    ):
        yield f"<dt>{what}</dt><dd>{escape(how)}</dd>"
    yield '</dl><div class="ticks tanks">'
    for tank in alike:
        yield _tick(f"tank-{tank.number}", str(tank.number), says=f"mix {tank.number} made up")
    yield "</div>"
    yield _written(f"added-{first}", "Really added, where it differed")
    yield "</section>"


def _rooms(
    quote: Quote,
    found: Sequence[Stop],
    lines: Sequence[StopLine],
    shared: Sequence[Precaution],
) -> Iterator[str]:
    yield '<h2 id="rooms">Rooms in order</h2>'
    yield (
        "<p>Numbers as on the plan; times are hours and minutes after arrival. Work backwards to "
        "the way out; nobody walks through a wet room.</p>"
    )
    back = {one.room: one.at for one in quote.timetable.reentry}
    for stop, line in zip(found, lines, strict=True):
        yield from _stop(stop, line, shared, back.get(stop.room))


def _stop(
    stop: Stop, line: StopLine, shared: Sequence[Precaution], closed_until: Seconds | None
) -> Iterator[str]:
    name = escape(f"{line.number} {line.room}", quote=True)
    way = (line.person - 1) % _WAYS + 1
    key = f"stop-{line.number}"
    yield f'<section class="card" data-stop data-name="{name}"><header>'
    yield f'<div class="number way-{way}" style="flex: none">{line.number}</div>'
    storey = f'<span class="muted">{escape(line.storey)}</span>' if line.storey else ""
    yield f"<div><h3>{escape(line.room)}</h3>{storey}</div></header><dl>"
    again = f", {line.passes} times, each before it dries" if line.passes > 1 else ""
    for what, how in (
        ("Start", _timed(stop.start)),
        ("Who", f"person {line.person}"),
        ("Strength", escape(line.strength)),
        ("Mix", escape(line.tanks)),
        ("Fill in", escape(line.fill_in)),
        ("Spray", escape(f"{line.spray} on {line.surface}{again}")),
        ("Keep wet", escape(line.keep_wet)),
        ("Closed until", _timed(closed_until)),
    ):
        if how:
            yield f"<dt>{what}</dt><dd>{how}</dd>"
    yield '</dl><div class="ticks">'
    for one in line.mask:
        if one not in shared:
            yield _tick(f"{key}-{one.slug}", _masked(one))
    if shared:
        things = "; ".join(legible(one.says.partition(":")[0]) for one in shared)
        yield _tick(f"{key}-as-everywhere", f"As in every room: {things}")
    yield _tick(f"{key}-sprayed", "Sprayed, kept wet all that time")
    if line.wipe:
        yield _tick(f"{key}-wiped", f"Wiped and rinsed: {line.wipe}")
    yield _tick(f"{key}-done", "Unmasked, put back, closed and signed")
    yield '</div><div class="pair">'
    yield _written(f"{key}-used", "Really sprayed")
    yield _written(f"{key}-time", "Minutes it took", kind="number")
    yield "</div>"
    yield _written(f"{key}-note", "Remarks")
    yield "</section>"


def _masked(one: Precaution) -> str:
    """Return what is done about one kind of thing, as a sentence begins."""
    return legible(f"{one.says[:1].upper()}{one.says[1:]}")


def _emergency() -> Iterator[str]:
    yield '<h2 id="emergency">If something goes wrong</h2>'
    yield "<p>Label and safety data sheet come first.</p>"
    yield _listed(f"{one.happened}: {one.do}" for one in EMERGENCIES)
    for name, says in (
        ("services", "Emergency services"),
        ("poison", "Poison centre"),
        ("tap", "Nearest tap or eye-wash"),
    ):
        yield _written(name, says)


def _record(quote: Quote) -> Iterator[str]:
    yield "<h2>What it really took</h2>"
    yield '<div class="pair">'
    yield _written("left", "Left at", kind="time")
    yield _written("people", "People", kind="number")
    yield _written("left-over", "Solution left over")
    yield _written("product", "Product used")
    yield "</div>"
    yield '<label class="write"><span>Remarks</span>'
    yield '<textarea name="remarks" data-says="remarks" rows="3"></textarea></label>'
    yield _written("signed", "Signed")
    yield '<p><button type="button" id="save">Save what was used as a table</button></p>'
    yield (
        "<p>Bring the table that is saved to the office, by mail or otherwise: it is read on the "
        "page Outcomes, under “Take it from the work sheet on the phone”.</p>"
    )
    yield (
        f'<p class="muted">Plan {quote.provenance.plan_digest}. What you tick and write stays on '
        "this phone until you save it.</p>"
    )


def _timed(after: Seconds | None) -> str:
    """Return a time after arrival, and room for the time of day."""
    if after is None:
        return ""
    return f'{clock(after)} <time data-after="{after:.0f}"></time>'


def _listed(sentences: Iterable[str]) -> str:
    items = "".join(f"<li>{escape(legible(one))}</li>" for one in sentences)
    return f"<ul>{items}</ul>"


def _tick(name: str, words: str, *, says: str = "") -> str:
    told = escape(says or words, quote=True)
    return (
        f'<label class="tick"><input type="checkbox" name="{name}" data-says="{told}">'
        f"<span>{escape(words)}</span></label>"
    )


def _written(name: str, words: str, *, kind: str = "text") -> str:
    numbers = ' inputmode="numeric" min="0"' if kind == "number" else ""
    return (
        f'<label class="write"><span>{escape(words)}</span><input type="{kind}" name="{name}" '
        f'data-says="{escape(words.lower(), quote=True)}"{numbers}></label>'
    )
