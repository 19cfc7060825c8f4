"""What heads a paper about one quote that bears no letterhead."""

from collections.abc import Iterator

from reportlab.platypus import Flowable

from estimator.documents.frame import over_rule
from estimator.documents.palette import ACCENT, MUTED
from estimator.documents.paper import content_width, style, text
from estimator.documents.wording import day_words
from estimator.quantities import Units
from estimator.quote.quote import Quote


def page_head(kind: str, quote: Quote, units: Units) -> Iterator[Flowable]:
    """Yield what the paper is, for which site and of which day."""
    wide = content_width(units)
    left = [
        text(kind, style(8, bold=True, colour=ACCENT)),
        text(quote.title or "Untitled site", style(17, bold=True)),
        text("Surface disinfection by electrostatic spraying", style(8.5, colour=MUTED)),
    ]
    right = [text(day_words(quote.date), style(9, right=True))]
    yield over_rule([left, right], [0.76 * wide, 0.24 * wide], gap=6, spaceAfter=6)
