"""What a quote offers: scope, plan, surfaces, solution and price, filling the first page."""

from collections.abc import Iterator, Sequence

from attrs import frozen
from reportlab.platypus import Flowable, PageBreak, Spacer, Table, TableStyle

from estimator.documents.drawing import plan_scene
from estimator.documents.frame import banner
from estimator.documents.lettering import legible
from estimator.documents.offered_price import OfferedPrice, payable
from estimator.documents.offered_treatment import OfferedTreatment, kind_words
from estimator.documents.palette import MUTED
from estimator.documents.paper import Drawing, column_width, columns, content_height
from estimator.documents.scene import Scene, Words, moved
from estimator.documents.stationery import Stationery, height_of
from estimator.plan.plan import Plan
from estimator.plan.storey import Storey
from estimator.quantities import Units
from estimator.quote.quote import Quote
from estimator.quote.recipient import Recipient
from estimator.surfaces.schedule import SurfaceKind
from estimator.surfaces.totals import by_kind

_PLAN_SHARES = (0.58, 0.64)
"""Share of the width that a single storey takes, the larger one where there is height for it."""

_HIGH = 420.0
"""Height from which there is, in points."""

_PLAN_HEIGHTS = (120.0, 330.0)
"""Least and greatest height of a storey, in points."""

_CAPTION = 34.0
"""Height below a storey that its scale and legend take."""

_ALONE, _APART = 0.8, 250.0
"""Height of a storey on a page of its own, as a share of it, and of each of several in points."""

_PLAN_TEXT = 7.4


@frozen(kw_only=True, eq=False)
class Offer:
    """The offer of one quote on a firm's stationery."""

    sheet: Stationery
    plan: Plan
    quote: Quote
    recipient: Recipient | None = None

    def parts(self) -> list[Flowable]:
        """Return the parts of the first page; the plan takes what the others leave."""
        sheet = self.sheet
        addressed = sheet.addressed(self.recipient)
        above = [*sheet.letterhead(), *addressed, *self._title(), *self._scope()]
        below = OfferedPrice(sheet=self.sheet, quote=self.quote).parts()
        room = content_height(self.sheet.paper) - height_of([*above, *below], self.sheet.wide)
        plans = list(self._plans(room))
        if height_of(plans, self.sheet.wide) <= room:
            return [*above, *plans, *below]
        tables = [self._tables(), Spacer(1, 10)]
        return [*above, *tables, *below, PageBreak(), *self._plans_apart()]

    def _title(self) -> Iterator[Flowable]:
        sheet, quote = self.sheet, self.quote
        left = [
            sheet.text(sheet.say("kicker"), 8.5, bold=True, colour=sheet.firm.accent),
            sheet.text(sheet.titled(quote.title, self.recipient), 18, bold=True),
            sheet.text(sheet.say("trade"), 8.5, colour=MUTED),
        ]
        number = quote.provenance.job_digest[:4] + quote.provenance.plan_digest[:4]
        right = [
            sheet.text(sheet.reader.day(quote.date), 9, right=True, bold=True),
            sheet.text(
                sheet.say("valid", day=sheet.reader.day(quote.terms.valid_until)), 8, right=True
            ),
            sheet.text(
                sheet.numbered(self.recipient) or sheet.say("reference", number=number.upper()),
                7.2,
                colour=MUTED,
                right=True,
            ),
        ]
        yield Table(
            [[left, right]],
            colWidths=[0.66 * sheet.wide, 0.34 * sheet.wide],
            style=TableStyle(
                [
                    ("LEFTPADDING", (0, 0), (-1, -1), 0),
                    ("RIGHTPADDING", (0, 0), (-1, -1), 0),
                    ("TOPPADDING", (0, 0), (-1, -1), 0),
                    ("BOTTOMPADDING", (0, 0), (-1, -1), 0),
                    ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ]
            ),
            spaceAfter=9,
        )
        yield sheet.figures(self._figures())

    def _figures(self) -> list[tuple[str, str]]:
        sheet, quote, reader = self.sheet, self.quote, self.sheet.reader
        several = quote.terms.visits > 1
        volume, crew = quote.solution.volume, quote.timetable.crew
        litres = reader.units is Units.US
        return [
            (
                payable(quote.price, quote.range, quote.terms, reader),
                sheet.say("total_visit" if several else "total"),
            ),
            (reader.area(quote.schedule.treated), sheet.say("surface")),
            (
                reader.volume(volume),
                sheet.say("solution_litres", litres=reader.litres(volume))
                if litres
                else sheet.say("solution"),
            ),
            (
                reader.time(quote.timetable.on_site),
                sheet.say("crew", count=crew) if crew > 1 else sheet.say("alone"),
            ),
        ]

    def _scope(self) -> Iterator[Flowable]:
        sheet, quote, reader = self.sheet, self.quote, self.sheet.reader
        totals = by_kind(quote.schedule)
        kinds = [kind for kind in SurfaceKind if kind in totals]
        treated = [kind_words(reader, "kinds", kind) for kind in kinds if totals[kind].treated]
        left_out = [
            kind_words(reader, "kinds", kind)
            for kind in kinds
            if totals[kind].gross and not totals[kind].treated
        ]
        rooms, crew = len(quote.schedule.rooms), quote.timetable.crew
        said = [
            sheet.say(
                "scope",
                kinds=reader.listed(treated) or sheet.say("nothing"),
                rooms=sheet.say("room")
                if rooms == 1
                else sheet.say("rooms", count=reader.number(rooms)),
                floor=reader.area(quote.schedule.floor_area),
            )
        ]
        if left_out:
            said.append(sheet.say("excluded", kinds=reader.listed(left_out)))
        time, labour = map(reader.time, (quote.timetable.on_site, quote.timetable.person_time))
        said.append(
            sheet.say("work_alone", time=time)
            if crew == 1
            else sheet.say("work_crew", count=crew, time=time, labour=labour)
        )
        said += self._series()
        if quote.provisional:
            yield banner(self._unconfirmed(), sheet.paper)
        yield sheet.heading(sheet.say("done"))
        yield sheet.text(" ".join(said), 8.6, spaceAfter=8)

    def _unconfirmed(self) -> str:
        """Return what must still be confirmed, what the label must say as one sentence."""
        sheet = self.sheet
        facts = dict.fromkeys(
            sheet.reader.sentence(fact) or sheet.say("untold")
            for fact in self.quote.solution.unconfirmed
        )
        start = sheet.say("confirm")
        on_label = [
            fact.removeprefix(start).rstrip(".") for fact in facts if fact.startswith(start)
        ]
        said = [sheet.say("provisional")]
        if on_label:
            said.append(sheet.say("confirm_all", facts="; ".join(on_label)))
        return " ".join((*said, *(fact for fact in facts if not fact.startswith(start))))

    def _series(self) -> list[str]:
        terms = self.quote.terms
        if terms.visits == 1:
            return []
        if not terms.every:
            return [self.sheet.say("series_open", visits=terms.visits)]
        every = self.sheet.reader.say("every", terms.every.replace(" ", "_").replace("-", "_"))
        return [self.sheet.say("series", visits=terms.visits, every=every)]

    def _plans(self, room: float) -> Iterator[Flowable]:
        """Yield one storey beside surfaces and strengths, or several in pairs above them."""
        sheet, treated = self.sheet, OfferedTreatment(sheet=self.sheet, quote=self.quote)
        storeys = self._storeys()
        if len(storeys) == 1:
            share = _PLAN_SHARES[room > _HIGH]
            beside = column_width(sheet.paper, 1 - share)
            wide = column_width(sheet.paper, share)
            right = [*treated.surfaces(beside), Spacer(1, 9), *treated.strengths(beside)]
            high = _within(room - _CAPTION, _PLAN_HEIGHTS)
            drawing = self._drawing(storeys[0], wide, high)
            yield columns(
                [sheet.heading(sheet.say("where")), drawing], right, sheet.paper, share=share
            )
            yield Spacer(1, 10)
            return
        tables = self._tables()
        rows = -(-len(storeys) // 2)
        left = (room - height_of([tables], sheet.wide) - 30) / max(rows, 1) - 1.5 * _CAPTION
        yield from self._pairs(storeys, _within(left, _PLAN_HEIGHTS))
        yield tables
        yield Spacer(1, 10)

    def _plans_apart(self) -> Iterator[Flowable]:
        """Yield the storeys on pages of their own, where the first page has no room for them."""
        storeys = self._storeys()
        if len(storeys) == 1:
            high = _ALONE * content_height(self.sheet.paper)
            yield self.sheet.heading(self.sheet.say("where"))
            yield self._drawing(storeys[0], self.sheet.wide, high)
        else:
            yield from self._pairs(storeys, _APART)

    def _pairs(self, storeys: Sequence[Storey], high: float) -> Iterator[Flowable]:
        sheet = self.sheet
        drawings = [self._drawing(storey, sheet.half, high) for storey in storeys]
        yield sheet.heading(sheet.say("where"))
        for at in range(0, len(drawings), 2):
            yield columns(drawings[at : at + 1], drawings[at + 1 : at + 2], sheet.paper)
            yield Spacer(1, 6)

    def _tables(self) -> Flowable:
        treated, half = OfferedTreatment(sheet=self.sheet, quote=self.quote), self.sheet.half
        return columns(treated.surfaces(half), treated.strengths(half), self.sheet.paper)

    def _storeys(self) -> list[Storey]:
        """Return the storeys that have rooms."""
        used = {room.storey for room in self.plan.rooms}
        return [storey for storey in self.plan.storeys if storey.number in used]

    def _drawing(self, storey: Storey, wide: float, high: float) -> Flowable:
        """Return the drawing of a storey, under its name where there are several."""
        reader, size = self.sheet.reader, _PLAN_TEXT
        scene = plan_scene(
            self.plan,
            self.quote,
            reader.units,
            storey.number,
            width=wide,
            height=high,
            text=size,
            reader=reader,
        )
        if len(self.plan.storeys) == 1:
            return Drawing(scene)
        name = legible(storey.name) or reader.say("drawing", "storey", number=storey.number + 1)
        title = Words(text=name, x=wide / 2, y=size, size=size, colour=MUTED, bold=True)
        marks = (title, *(moved(mark, 0.0, 1.9 * size) for mark in scene.marks))
        return Drawing(Scene(width=wide, height=scene.height + 1.9 * size, marks=marks))


def _within(value: float, bounds: tuple[float, float]) -> float:
    return min(max(value, bounds[0]), bounds[1])
