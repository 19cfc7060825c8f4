"""``estimator quote``: surfaces, solution, visit and price of one plan or several storeys."""

import argparse
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from attrs import evolve

from estimator.cli import price_choices
from estimator.documents.paper import Paper
from estimator.documents.quote_json import quote_to_dict
from estimator.documents.quote_pdf import quote_pdf
from estimator.documents.tables import quote_xlsx, schedule_csv
from estimator.documents.unwritten import unwritten, words_of
from estimator.documents.worksheet_html import worksheet_html
from estimator.documents.worksheet_pdf import worksheet_pdf
from estimator.plan.edits import stacked
from estimator.quantities.counted import counted
from estimator.quantities.in_units import in_units
from estimator.quantities.language import Language
from estimator.quantities.lengths import length
from estimator.quantities.shown import (
    Units,
    shown_area,
    shown_concentration,
    shown_duration,
    shown_volume,
)
from estimator.quantities.shown_money import shown_money
from estimator.quote.quote import Quote
from estimator.workflow.files import load_plan, save
from estimator.workflow.firm_book import firm_book
from estimator.workflow.preferences import preferences
from estimator.workflow.quoting import estimate, usual_job


def add_to(commands: Any) -> None:
    """Add the command to the parser's commands."""
    command = commands.add_parser(
        "quote",
        help="price a plan",
        description="Reckon surfaces, solution, time on site and price; several plans are storeys.",
    )
    add = command.add_argument
    add("plans", nargs="+", type=Path, metavar="PLAN", help="plan.json, one a storey")
    add(
        "--book",
        action="append",
        default=[],
        type=Path,
        metavar="FILE",
        help="book laid over the firm's own",
    )
    add("--crew", type=int, metavar="N", help="how many people come")
    add("--sprayers", type=int, metavar="N", help="how many of them spray (one of every two)")
    add("--product", metavar="SLUG", help="product of the book")
    add("--sprayer", metavar="SLUG", help="sprayer of the book")
    add("--walls-to", metavar="LENGTH", help="treat walls up to a height only")
    add("--ceilings", action="store_true", help="treat ceilings too")
    add("--date", default="", metavar="YYYY-MM-DD", help="day of the quote (today)")
    add("--units", type=Units, choices=list(Units), help="metric or us")
    add(
        "--language",
        type=Language,
        choices=list(Language),
        default=Language.EN,
        help="of the client's papers: en, fr or es",
    )
    add("--paper", type=Paper, choices=list(Paper), help="A4 or Letter (by the units)")
    price_choices.add_to(command)
    for name, what in _PAPERS.items():
        add(f"--{name}", type=Path, metavar="FILE", help=what)
    command.set_defaults(run=run)


_PAPERS = {
    "json": "write every number as JSON",
    "pdf": "write the quote for the client",
    "worksheet": "write the work sheet for the crew: FILE.pdf for paper, FILE.html for a phone",
    "csv": "write the schedule of surfaces as CSV",
    "xlsx": "write schedule, solution, timetable and price as a workbook",
}


def run(chosen: argparse.Namespace) -> None:
    """Print the quote and write the papers asked for."""
    plan = stacked([load_plan(path) for path in chosen.plans])
    book = firm_book(*chosen.book)
    job = usual_job(book)
    job = evolve(
        job,
        crew=job.crew if chosen.crew is None else chosen.crew,
        sprayers=chosen.sprayers,
        product=chosen.product or job.product,
        sprayer=chosen.sprayer or job.sprayer,
        scope=evolve(
            job.scope,
            walls_to=length(chosen.walls_to) if chosen.walls_to else None,
            ceilings=chosen.ceilings,
        ),
    )
    job = price_choices.agreed(job, chosen)
    units = chosen.units or preferences().units
    quote = estimate(plan, book=book, job=job, date=chosen.date)
    if chosen.json:
        save(chosen.json, json.dumps(quote_to_dict(quote), indent=1, ensure_ascii=False) + "\n")
    if chosen.pdf:
        made = quote_pdf(
            plan,
            quote,
            units,
            firm=book.firm,
            language=chosen.language,
            paper=chosen.paper,
        )
        save(chosen.pdf, made)
    if chosen.worksheet:
        on_phone = chosen.worksheet.suffix.lower() in (".html", ".htm")
        worksheet = worksheet_html if on_phone else worksheet_pdf
        save(chosen.worksheet, worksheet(plan, quote, units))
    if chosen.csv:
        save(chosen.csv, schedule_csv(quote, units, chosen.language))
    if chosen.xlsx:
        made = quote_xlsx(quote, units, rates=book.rates, language=chosen.language)
        save(chosen.xlsx, made)
    print(summary(quote, units))
    told = unwritten(words_of(plan, book.firm))
    if told and (chosen.pdf or chosen.worksheet):
        print(told)


def summary(quote: Quote, units: Units) -> str:
    """Return the quote in a dozen lines for the terminal."""
    schedule, solution, visit = quote.schedule, quote.solution, quote.timetable
    lines = [
        quote.title or "Quote",
        f"  rooms          {len(schedule.rooms)}",
        f"  floor          {shown_area(schedule.floor_area, units)}",
        f"  treated        {shown_area(schedule.treated, units)}",
        f"  solution       {shown_volume(solution.volume, units)}",
    ]
    for mix in solution.mixes:
        amount = f"{counted(mix.tablets, 'tablet')}, " if mix.tablets else ""
        lines.append(
            f"    at {shown_concentration(mix.wanted)}: {shown_volume(mix.needed, units)}, "
            f"{amount}{counted(len(mix.fills), 'tank fill')}"
        )
    lines += [
        f"  time on site   {shown_duration(visit.on_site)} with a crew of {visit.crew}",
        f"  at the least   {shown_duration(visit.lower_bound)}, by any order of the work",
        f"  price          {shown_money(quote.price.total)} with tax",
        f"  likely range   {shown_money(quote.range.p10)} to {shown_money(quote.range.p90)}",
        *_terms(quote),
    ]
    names = [room.name for room in schedule.rooms]
    assumptions = [in_units(doubt.says, units, names) for doubt in quote.assumptions]
    for heading, sentences in (
        ("for the firm alone", quote.price.findings),
        ("assumed", assumptions),
        ("to confirm before spraying", solution.unconfirmed),
        ("on the visit", visit.findings),
        ("mind", [caution.text for caution in quote.cautions]),
    ):
        if sentences:
            lines.append(f"{heading}:")
            lines += [f"  - {sentence}" for sentence in sentences]
    return "\n".join(lines)


def _terms(quote: Quote) -> Iterator[str]:
    """Yield how long the price holds, what is paid ahead, the term and the options."""
    terms = quote.terms
    yield f"  valid until    {terms.valid_until}"
    if terms.deposit.amount:
        yield f"  deposit        {shown_money(terms.deposit)}"
    if terms.visits > 1:
        often = f", one every {terms.every}" if terms.every else ""
        yield f"  the term       {terms.visits} visits{often}: {shown_money(terms.term_total)}"
    for option in quote.options:
        yield f"  option         {shown_money(option.price.total)}: {option.name}"
