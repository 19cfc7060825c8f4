"""The client's quote on paper."""

from reportlab.platypus import Flowable, PageBreak

from estimator.documents.agreement import Agreement
from estimator.documents.offer import Offer
from estimator.documents.paper import Paper, usual_paper
from estimator.documents.reader import Reader
from estimator.documents.stationery import Stationery
from estimator.plan.plan import Plan
from estimator.quantities import Units
from estimator.quantities.language import Language
from estimator.quote.firm import Firm
from estimator.quote.quote import Quote
from estimator.quote.recipient import Recipient


def quote_pdf(
    plan: Plan,
    quote: Quote,
    units: Units,
    *,
    firm: Firm | None = None,
    language: Language = Language.EN,
    paper: Paper | None = None,
    recipient: Recipient | None = None,
) -> bytes:
    """Return the quote as a client may see it: what is done, when, for how much, on what terms.

    The offer fills the first page; what it rests on, and its acceptance, follow. The same inputs
    give the same bytes.

    Parameters
    ----------
    firm
        Whose letterhead, colours and terms it bears; none where it is None.
    paper
        The usual one for readers of these units where it is None.
    recipient
        Whom it is addressed to; nobody where it is None.
    """
    sheet = Stationery(
        firm=firm or Firm(),
        paper=paper or usual_paper(units),
        reader=Reader(language=language, units=units),
    )
    made, _ = sheet.printed(
        quote_parts(sheet, plan, quote, recipient),
        title=sheet.say("title", site=sheet.titled(quote.title, recipient)),
        foot=" · ".join(
            filter(
                None, (sheet.numbered(recipient), sheet.say("of", day=sheet.reader.day(quote.date)))
            )
        ),
    )
    return made


def quote_parts(
    sheet: Stationery, plan: Plan, quote: Quote, recipient: Recipient | None = None
) -> list[Flowable]:
    """Return all parts of a quote, to be printed below each other."""
    return [
        *Offer(sheet=sheet, plan=plan, quote=quote, recipient=recipient).parts(),
        PageBreak(),
        *Agreement(sheet=sheet, quote=quote).parts(),
    ]
