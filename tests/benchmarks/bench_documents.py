"""How long the papers of a usual quote take, beside the quote itself and as sites grow.

Of the processor's time, since papers are made while other work goes on.
"""

import statistics
import time

import pytest
from attrs import evolve

from estimator.catalogue.loader import packaged_book
from estimator.documents.paper import Paper
from estimator.documents.portfolio_pdf import Site, portfolio_pdf
from estimator.documents.quote_pdf import quote_pdf
from estimator.documents.tables import quote_xlsx
from estimator.estimation.job import Alternative
from estimator.quantities import Units
from estimator.quantities.language import Language
from estimator.surfaces.scope import Scope
from estimator.workflow.quoting import estimate, usual_job
from estimator.workflow.samples import samples

BOOK = packaged_book()
WITHIN = 0.3  # seconds that a usual quote's PDF may take
JOB = evolve(
    usual_job(BOOK),
    visits=12,
    alternatives=(Alternative(scope=Scope(ceilings=True)), Alternative(scope=Scope(doors=False))),
)


def median_time(run, times):
    taken = []
    for _ in range(times):
        began = time.process_time()
        run()
        taken.append(time.process_time() - began)
    return statistics.median(taken)


@pytest.fixture(scope="module")
def sites():
    plans = [sample.truth() for sample in samples()]
    return [
        Site(plan=plan, quote=estimate(plan, book=BOOK, job=JOB, date="2026-11-25"))
        for plan in plans
    ]


def test_papers_of_every_sample(sites, capsys):
    def printed(site, language=Language.EN):
        return lambda: quote_pdf(
            site.plan,
            site.quote,
            Units.METRIC,
            firm=BOOK.firm,
            language=language,
            paper=Paper.A4,
        )

    printed(sites[0])()  # the typeface is opened once
    reckoned = median_time(
        lambda: estimate(sites[0].plan, book=BOOK, job=JOB, date="2026-11-25"), 3
    )
    english = [median_time(printed(site), 3) for site in sites]
    french = [median_time(printed(site, Language.FR), 3) for site in sites]
    workbook = median_time(lambda: quote_xlsx(sites[0].quote, Units.METRIC, rates=BOOK.rates), 3)
    together = median_time(lambda: portfolio_pdf(sites, Units.METRIC, firm=BOOK.firm), 1)
    with capsys.disabled():
        print(
            f"\nPDF of a quote: {min(english) / WITHIN:.2f} to {max(english) / WITHIN:.2f} of what "
            f"it may take; in French {max(french) / max(english):.2f} times as long as in English\n"
            f"beside reckoning the quote: PDF {english[0] / reckoned:.2f}, workbook "
            f"{workbook / reckoned:.2f} times as long\n"
            f"{len(sites)} sites in one document: {together / sum(english):.2f} times as long as "
            "apart"
        )
    assert max(*english, *french) < WITHIN
