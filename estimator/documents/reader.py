"""The reader of a paper: the language it is written in, and the units it is measured in."""

from collections.abc import Collection, Sequence

from attrs import frozen

from estimator.documents.lettering import legible
from estimator.documents.phrasebook import cautions, labels, listed, phrase, told
from estimator.measures import (
    CubicMetres,
    Kilograms,
    KilogramsPerCubicMetre,
    Metres,
    Seconds,
    Share,
    SquareMetres,
)
from estimator.plan.doubt import Doubt
from estimator.price.money import Money
from estimator.quantities import (
    Units,
    shown_area,
    shown_concentration,
    shown_duration,
    shown_length,
    shown_mass,
    shown_share,
    shown_volume,
)
from estimator.quantities.in_units import in_units
from estimator.quantities.language import Language, respelled, shown_day
from estimator.quantities.shown_money import shown_money
from estimator.surfaces.schedule import RoomSchedule
from estimator.treatment.cautions import Caution

_ASIDES = (
    "; the label's own time must still be confirmed",
    " (CDC 2003, Appendix B, times the mixing factor)",
)
"""What is said once for all rooms, and the source of a reason."""


@frozen(kw_only=True)
class Reader:
    """Who reads a paper."""

    language: Language = Language.EN
    units: Units = Units.METRIC

    def say(self, section: str, key: str, **values: object) -> str:
        """Return words of the papers' own with values put into their braces."""
        return phrase(self.language, section, key).format(**values)

    def label(self, english: str) -> str:
        """Return a name of the packaged book in the reader's language, any other as it is.

        What stands behind a comma, such as the side of a piece of furniture, is told too.
        """
        known = labels(self.language)
        return known.get(english) or ", ".join(
            known.get(part, part) for part in english.split(", ")
        )

    def sentence(self, english: str, names: Collection[str] = ()) -> str | None:
        """Return a sentence of the reckoning in the reader's language; None when it is unknown.

        Measures in it are said in the reader's units.

        Parameters
        ----------
        names
            Names that rooms were given, to be kept even where the packaged book knows the word.
        """
        measured = in_units(english, self.units, names)
        if self.language is Language.EN:
            return measured
        return told(measured, self.language, names)

    def doubt(self, doubt: Doubt, names: Collection[str] = ()) -> str:
        """Return what a doubt says, or, where it is of no known kind, what is not certain."""
        return self.sentence(doubt.says, names) or self.say("doubts", doubt.aspect.value)

    def line(self, label: str) -> str:
        """Return what a line of a price is for; a label of the firm's own stays as it is."""
        return self.sentence(label) or label

    def option(self, name: str) -> str:
        """Return what an option covers; a name that somebody gave it stays as it is."""
        known = self.sentence(name[:1].lower() + name[1:])
        return known[:1].upper() + known[1:] if known else name

    def reason(self, because: str) -> str | None:
        """Return why a room stays closed, without its source; None when it is not known."""
        for aside in _ASIDES:
            because = because.replace(aside, "")
        return self.sentence(because)

    def caution(self, caution: Caution) -> str:
        """Return what a caution says."""
        known = cautions(self.language).get(caution.text)
        english = self.language is Language.EN
        return caution.text if english else known or self.say("doubts", "caution")

    def room(self, room: RoomSchedule) -> str:
        """Return what a room is called: by its name, or else by its use."""
        return legible(room.name) or self.label(room.use_label)

    def area(self, value: SquareMetres) -> str:
        """Return an area."""
        return respelled(shown_area(value, self.units), self.language)

    def length(self, value: Metres) -> str:
        """Return a length."""
        return respelled(shown_length(value, self.units), self.language)

    def volume(self, value: CubicMetres) -> str:
        """Return a volume of liquid."""
        return respelled(shown_volume(value, self.units), self.language)

    def litres(self, value: CubicMetres) -> str:
        """Return a volume of liquid in litres, which labels speak of everywhere."""
        return respelled(shown_volume(value, Units.METRIC), self.language)

    def mass(self, value: Kilograms) -> str:
        """Return a mass."""
        return respelled(shown_mass(value, self.units), self.language)

    def strength(self, value: KilogramsPerCubicMetre) -> str:
        """Return a strength of available chlorine."""
        return respelled(shown_concentration(value), self.language)

    def time(self, value: Seconds) -> str:
        """Return a duration."""
        return respelled(shown_duration(value), self.language)

    def share(self, value: Share) -> str:
        """Return a share in per cent."""
        return respelled(shown_share(value), self.language)

    def number(self, value: int) -> str:
        """Return a count."""
        return respelled(f"{value:,}", self.language)

    def money(self, money: Money) -> str:
        """Return an amount of money."""
        return shown_money(money, self.language)

    def day(self, written: str) -> str:
        """Return an ISO date in words."""
        return shown_day(written, self.language)

    def listed(self, words: Sequence[str]) -> str:
        """Return words as a list in a sentence."""
        return listed(words, self.language)
