"""Papers shown on a screen as they will be printed."""

from io import BytesIO

from estimator.documents.paper import Paper
from estimator.documents.quote_pdf import quote_pdf
from estimator.intake.pdf import opened
from estimator.plan.plan import Plan
from estimator.quantities import Units
from estimator.quantities.language import Language
from estimator.quote.firm import Firm
from estimator.quote.quote import Quote

_DOTS_PER_POINT = 1.6


def first_page(
    plan: Plan, quote: Quote, units: Units, *, firm: Firm, language: Language, paper: Paper
) -> bytes:
    """Return the first page of a quote as a PNG picture."""
    made = quote_pdf(plan, quote, units, firm=firm, language=language, paper=paper)
    written = BytesIO()
    with opened(made, "quote.pdf") as document:
        document[0].render(scale=_DOTS_PER_POINT).to_pil().save(written, "PNG")
    return written.getvalue()
