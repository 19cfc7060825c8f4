"""What is treated and with what, as tables of an offer."""

from attrs import frozen
from reportlab.platypus import Flowable, Spacer

from estimator.documents.colouring import zones_words
from estimator.documents.palette import MUTED
from estimator.documents.reader import Reader
from estimator.documents.stationery import Stationery
from estimator.quote.quote import Quote
from estimator.surfaces.schedule import SurfaceKind
from estimator.surfaces.totals import by_kind
from estimator.treatment.solution import Mix

_NEAR = 0.1
"""Solutions stronger than wanted by more than this share are said to be."""


def kind_words(reader: Reader, section: str, kind: SurfaceKind) -> str:
    """Return a kind of surface in a sentence (``kinds``) or in a table (``kind_rows``)."""
    return reader.say(section, kind.value.replace(" ", "_"))


@frozen(kw_only=True, eq=False)
class OfferedTreatment:
    """Surfaces and strengths of one quote on a firm's stationery."""

    sheet: Stationery
    quote: Quote

    def surfaces(self, wide: float) -> list[Flowable]:
        """Return how much there is of each kind of surface, and how much is treated."""
        sheet, area = self.sheet, self.sheet.reader.area
        totals = {
            kind: total for kind, total in by_kind(self.quote.schedule).items() if total.treated
        }
        rows = [
            (
                kind_words(sheet.reader, "kind_rows", kind),
                area(totals[kind].net),
                area(totals[kind].treated),
            )
            for kind in SurfaceKind
            if kind in totals
        ]
        net = sum(total.net for total in totals.values())
        rows.append((sheet.say("together"), area(net), area(self.quote.schedule.treated)))
        return [
            sheet.heading(sheet.say("surfaces")),
            sheet.table(
                (sheet.say("kind"), sheet.say("present"), sheet.say("treated")),
                rows,
                (0.46 * wide, 0.27 * wide, 0.27 * wide),
                numbers=(1, 2),
                strong_last=True,
            ),
        ]

    def strengths(self, wide: float) -> list[Flowable]:
        """Return how much solution of each strength is sprayed, and what goes into it."""
        sheet, reader, solution = self.sheet, self.sheet.reader, self.quote.solution
        rows = [
            (self._strength(mix), reader.volume(mix.needed), self._product(mix))
            for mix in sorted(solution.mixes, key=lambda mix: mix.wanted)
        ]
        said = [sheet.say("chlorine")]
        if contacts := sorted(mix.contact_time for mix in solution.mixes):
            low, high = map(reader.time, (contacts[0], contacts[-1]))
            time = low if low == high else sheet.say("to", low=low, high=high)
            said.append(sheet.say("contact", time=time))
        return [
            sheet.heading(sheet.say("strengths")),
            sheet.table(
                (sheet.say("strength"), sheet.say("sprayed"), sheet.say("product")),
                rows,
                (0.43 * wide, 0.3 * wide, 0.27 * wide),
                numbers=(1, 2),
            ),
            Spacer(1, 3),
            sheet.text(" ".join(said), 7.0, colour=MUTED),
        ]

    def _strength(self, mix: Mix) -> str:
        """Return the strength wanted and where, and the one obtained where that is stronger."""
        reader = self.sheet.reader
        wanted = reader.strength(mix.wanted)
        if mix.strength > (1 + _NEAR) * mix.wanted:
            most = reader.strength(mix.strength)
            wanted = self.sheet.say("mixed_at", strength=wanted, most=most)
        zones = zones_words(mix, self.quote.solution, reader)
        return self.sheet.say("strength_of", zones=zones, strength=wanted)

    def _product(self, mix: Mix) -> str:
        sheet, reader = self.sheet, self.sheet.reader
        if mix.tablets:
            count = reader.number(mix.tablets)
            return sheet.say("tablet") if mix.tablets == 1 else sheet.say("tablets", count=count)
        if mix.powder:
            return sheet.say("powder", mass=reader.mass(mix.powder))
        if mix.concentrate:
            return sheet.say("concentrate", volume=reader.volume(mix.concentrate))
        return sheet.say("ready")
