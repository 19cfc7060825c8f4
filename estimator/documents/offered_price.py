"""The price of a quote and its options as the client sees them."""

from attrs import frozen
from reportlab.platypus import Flowable, Spacer

from estimator.documents.paper import column_width, columns
from estimator.documents.reader import Reader
from estimator.documents.stationery import BODY, Stationery
from estimator.price.build_up import Price
from estimator.quote.likely import Range
from estimator.quote.quote import Quote
from estimator.quote.terms import Terms


def payable(price: Price, likely: Range, terms: Terms, reader: Reader) -> str:
    """Return the one price, or what it may come to where the client was shown that."""
    if terms.fixed:
        return reader.money(price.total)
    return f"{reader.money(likely.p10)} – {reader.money(likely.p90)}"


@frozen(kw_only=True, eq=False)
class OfferedPrice:
    """Price, deposit, term and options of one quote on a firm's stationery."""

    sheet: Stationery
    quote: Quote

    def parts(self) -> list[Flowable]:
        """Return the price, beside the options where there is a choice."""
        sheet = self.sheet
        if len(self.quote.options) < 2:
            beside = [Spacer(1, 15), self._spread()]
            return [columns(self._amounts(sheet.half), beside, sheet.paper)]
        share = 0.42
        left = [*self._amounts(column_width(sheet.paper, share)), Spacer(1, 5), self._spread()]
        right = self._options(column_width(sheet.paper, 1 - share))
        return [columns(left, right, sheet.paper, share=share)]

    def _amounts(self, wide: float) -> list[Flowable]:
        sheet, quote, money = self.sheet, self.quote, self.sheet.reader.money
        price, terms = quote.price, quote.terms
        several = terms.visits > 1
        total = "sum_visit" if several else "sum"
        rows = [
            (sheet.say("charge_minimum" if price.at_minimum else "charge"), money(price.charge)),
            *(
                (sheet.reader.line(line.label), money(line.amount))
                for line in (*price.taxes, *price.rounding)
            ),
            (sheet.say(total if terms.fixed else f"{total}_expected"), money(price.total)),
        ]
        made: list[Flowable] = [
            sheet.heading(sheet.say("price")),
            sheet.table(
                (), rows, (0.64 * wide, 0.36 * wide), numbers=(1,), size=8.4, strong_last=True
            ),
        ]
        more = []
        if several:
            label = sheet.say("sum_term", visits=terms.visits)
            if terms.term_discount:
                share = sheet.reader.share(float(terms.term_discount))
                label += f" ({sheet.say('term_discount', share=share)})"
            more.append((label, money(terms.term_total)))
        if terms.deposit.amount:
            more.append((sheet.say("deposit"), money(terms.deposit)))
        if more:
            made.append(sheet.table((), more, (0.64 * wide, 0.36 * wide), numbers=(1,), size=8.0))
        return made

    def _spread(self) -> Flowable:
        sheet, likely, money = self.sheet, self.quote.range, self.sheet.reader.money
        low, middle, high = map(money, (likely.p10, likely.p50, likely.p90))
        if self.quote.terms.fixed:
            said = f"{sheet.say('fixed')} {sheet.say('spread', low=low, high=high)}"
        else:
            said = sheet.say("ranged", low=low, middle=middle, high=high)
        return sheet.text(said, BODY)

    def _options(self, wide: float) -> list[Flowable]:
        sheet, reader = self.sheet, self.sheet.reader
        rows = [
            (
                reader.option(option.name),
                reader.area(option.treated),
                reader.time(option.on_site),
                payable(option.price, option.range, self.quote.terms, reader),
            )
            for option in self.quote.options
        ]
        keys = ("option", "option_surface", "option_time", "option_total")
        return [
            sheet.heading(sheet.say("options")),
            sheet.table(
                tuple(map(sheet.say, keys)),
                rows,
                (0.34 * wide, 0.15 * wide, 0.19 * wide, 0.32 * wide),
                numbers=(1, 2, 3),
                size=7.8,
            ),
        ]
