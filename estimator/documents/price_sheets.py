"""The sheets of the price and of the options, every amount of which is a formula."""

from estimator.documents.build_up_sheet import BuildUp, rounding
from estimator.documents.lettering import plain
from estimator.documents.reader import Reader
from estimator.documents.sheet import Formula, Row, Sheet
from estimator.price.money import coin
from estimator.price.rates import Rates
from estimator.quote.quote import Quote


def price_sheet(quote: Quote, rates: Rates, reader: Reader) -> Sheet:
    """Return the build-up of the price, the deposit, the term and the range."""
    build_up = BuildUp(price=quote.price, rates=rates, reader=reader, first=2)
    rows = list(build_up.rows())
    strong = frozenset(build_up.sums)
    total, terms = build_up.total, quote.terms
    if terms.deposit.amount:
        share = f"{total}*{rates.deposit}"
        deposit = Formula(rounding(share, rates), terms.deposit.amount)
        rows.append((reader.say("sheets", "deposit"), None, None, rates.deposit, deposit))
    if terms.visits > 1:
        term = Formula(f"{total}*B{len(rows) + 2}", terms.term_total.amount)
        rows.append((reader.say("sheets", "term"), terms.visits, None, None, term))
    for chance, money in (
        (0.1, quote.range.p10),
        (0.5, quote.range.p50),
        (0.9, quote.range.p90),
    ):
        label = reader.say("sheets", "below", share=reader.share(chance))
        rows.append((label, None, None, None, money.amount))
    return _sheet("price", rows, strong, rates, reader)


def option_sheet(quote: Quote, rates: Rates, reader: Reader) -> Sheet | None:
    """Return the build-up of every option below its name; None where there is no choice."""
    if len(quote.options) < 2:
        return None
    rows: list[Row] = []
    strong: set[int] = set()
    for option in quote.options:
        strong.add(len(rows))
        rows.append((plain(reader.option(option.name)), None, None, None, None))
        build_up = BuildUp(price=option.price, rates=rates, reader=reader, first=len(rows) + 2)
        at = len(rows)
        rows += build_up.rows()
        strong |= {at + one for one in build_up.sums}
    return _sheet("options", rows, frozenset(strong), rates, reader)


def _sheet(
    name: str, rows: list[Row], strong: frozenset[int], rates: Rates, reader: Reader
) -> Sheet:
    digits = -int(coin(rates.currency).as_tuple().exponent)

    def say(key: str, **values: object) -> str:
        return reader.say("sheets", key, **values)

    return Sheet(
        name=say(name),
        headings=(
            say("line"),
            say("quantity"),
            say("unit"),
            say("rate"),
            say("amount", currency=rates.currency),
        ),
        decimals=(None, 3, None, 4, digits),
        rows=tuple(rows),
        strong=strong,
    )
