"""The workbook's formulas, reckoned anew by LibreOffice, come to our totals to the coin."""

import shutil
import subprocess
from decimal import Decimal
from io import BytesIO

import pytest
from attrs import evolve
from openpyxl import load_workbook

from estimator.catalogue.loader import packaged_book
from estimator.documents.reader import Reader
from estimator.documents.tables import quote_xlsx
from estimator.price.build_up import Work, price
from estimator.price.conditions import Conditions
from estimator.price.hours import Hours
from estimator.price.money import Money
from estimator.price.rates import Rates
from estimator.price.rounding import Halves, Rounded
from estimator.price.taxes import Tax, TaxPlace
from estimator.quantities import Units
from estimator.quantities.language import Language
from estimator.quote.option import Option
from estimator.surfaces.scope import Scope

SECONDS = (1800, 4000, 12345, 40000)
TAXES = {
    "none": (),
    "one": (Tax(label="VAT", share=Decimal("0.21")),),
    # As in places where a provincial tax was reckoned on the charge with the federal one.
    "piled": (
        Tax(label="=Federal", share=Decimal("0.05")),
        Tax(label="Provincial", share=Decimal("0.095"), on_taxes=True),
    ),
    "side by side": (
        Tax(label="State", share=Decimal("0.0625")),
        Tax(label="City", share=Decimal("0.02375")),
    ),
}


def _rates(currency, halves, step, of, taxes) -> Rates:
    scale = {"JPY": 150, "KWD": Decimal("0.307")}.get(currency, 1)
    usual = packaged_book().rates
    return evolve(
        usual,
        currency=currency,
        labour_per_hour=usual.labour_per_hour * scale,
        wear_per_person=Decimal("12.345") * scale,
        minimum_charge=usual.minimum_charge * scale,
        rounding_step=Decimal(step),
        rounding_halves=halves,
        rounding_of=of,
        margin=Decimal("0.2") if taxes == "piled" else Decimal(0),
        markup=Decimal(0) if taxes == "piled" else Decimal("0.25"),
        places=(
            TaxPlace(slug="here", label="Here", taxes=TAXES[taxes], source="test", as_of="2026"),
        ),
        place="here",
        products=tuple(evolve(row, currency=currency) for row in usual.products),
    )


CASES = {
    "dollars": _rates("USD", Halves.UP, "0", Rounded.TOTAL, "one"),
    "euros to even": _rates("EUR", Halves.EVEN, "0", Rounded.TOTAL, "side by side"),
    "francs by five": _rates("CHF", Halves.UP, "0.05", Rounded.TOTAL, "one"),
    "pounds, whole charge": _rates("GBP", Halves.EVEN, "1", Rounded.CHARGE, "piled"),
    "yen by ten": _rates("JPY", Halves.UP, "10", Rounded.TOTAL, "one"),
    "dinars": _rates("KWD", Halves.EVEN, "0.005", Rounded.CHARGE, "none"),
}


def _priced(rates, seconds, hours=Hours.NIGHT):
    work = Work(
        crew=2,
        sprayers=1,
        person_time=2.0 * seconds,
        on_site=float(seconds),
        product=rates.products[0].product,
        tablets=13,
        powder=0.0455,
        concentrate=0.000335,
        distance=15_500.0,
        road_time=1_730.0,
    )
    conditions = Conditions(hours=hours, discount=Decimal("0.025"), visits=12)
    return price(work, rates, conditions)


def _quote(quote, rates):
    options = tuple(
        Option(
            name=name,
            scope=Scope(),
            treated=10.0,
            volume=0.01,
            on_site=float(seconds),
            price=_priced(rates, seconds),
            range=quote.range,
        )
        for name, seconds in zip(("=1+1", "With ceilings", "+2", "@all"), SECONDS, strict=True)
    )
    own = options[0].price
    terms = evolve(
        quote.terms,
        visits=12,
        deposit=Money(Decimal(0), rates.currency),
        term_total=Money(12 * own.total.amount, rates.currency),
    )
    return evolve(quote, price=own, options=options, terms=terms)


@pytest.fixture(scope="module")
def recomputed(tmp_path_factory, lacking):
    """Return a function that gives workbooks back as LibreOffice reckons them."""

    def reckon(books):
        folder = tmp_path_factory.mktemp("books")
        for name, content in books.items():
            book = load_workbook(BytesIO(content))
            book.save(folder / f"{name}.xlsx")  # openpyxl leaves out what formulas came to
        program = shutil.which("soffice")
        if program is None:
            lacking("There is no LibreOffice: apt-get install libreoffice-calc-nogui.")
        subprocess.run(
            [
                program,
                f"-env:UserInstallation={(folder / 'profile').as_uri()}",
                "--headless",
                "--convert-to",
                "xlsx",
                "--outdir",
                str(folder / "out"),
                *(str(folder / f"{name}.xlsx") for name in books),
            ],
            check=True,
            capture_output=True,
            timeout=120,
        )
        return {
            name: load_workbook(folder / "out" / f"{name}.xlsx", data_only=True) for name in books
        }

    return reckon


def _amounts(sheet, label):
    return [row[4].value for row in sheet.iter_rows(min_row=2) if row[0].value == label]


def test_libreoffice_comes_to_our_totals_to_the_coin(quote, recomputed):
    quotes = {name: _quote(quote, rates) for name, rates in CASES.items()}
    written = {
        name: quote_xlsx(one, Units.METRIC, rates=CASES[name]) for name, one in quotes.items()
    }

    for name, book in recomputed(written).items():
        own, options = book["Price"], book["Options"]
        total = float(quotes[name].price.total.amount)
        assert _amounts(own, "Total") == [total], name
        assert _amounts(own, "All visits together") == pytest.approx([12 * total]), name
        assert _amounts(options, "Total") == [
            float(option.price.total.amount) for option in quotes[name].options
        ], name
        for line in quotes[name].price.costs + quotes[name].price.taxes:
            assert float(line.amount.amount) in _amounts(own, line.label), (name, line.label)


def test_what_formulas_come_to_stands_beside_them(quote):
    for name, rates in CASES.items():
        one = _quote(quote, rates)
        book = load_workbook(BytesIO(quote_xlsx(one, Units.METRIC, rates=rates)), data_only=True)
        assert _amounts(book["Price"], "Total") == [float(one.price.total.amount)], name
        assert _amounts(book["Options"], "Total") == [
            float(option.price.total.amount) for option in one.options
        ], name


@pytest.mark.parametrize("language", list(Language))
def test_only_amounts_and_bases_are_formulas_in_every_language(quote, language):
    rates, reader = CASES["dollars"], Reader(language=language)
    book = load_workbook(
        BytesIO(quote_xlsx(_quote(quote, rates), Units.US, rates=rates, language=language))
    )

    assert book.sheetnames == [
        reader.say("sheets", key)
        for key in ("schedule", "rooms", "solution", "timetable", "price", "options")
    ]
    formulas = {
        (sheet.title, cell.column_letter)
        for sheet in book
        for row in sheet.iter_rows()
        for cell in row
        if cell.data_type == "f"
    }
    money = (reader.say("sheets", "price"), reader.say("sheets", "options"))
    assert formulas == {(title, column) for title in money for column in "BE"}


@pytest.mark.parametrize("language", [Language.FR, Language.ES])
@pytest.mark.parametrize("hours", list(Hours))
def test_every_line_and_unit_of_a_price_is_told_in_every_language(language, hours):
    reader = Reader(language=language)
    for rates in CASES.values():
        made = _priced(rates, 1800, hours)
        own = {line.label for line in made.taxes}  # a tax bears the firm's own name for it
        for line in made.lines:
            assert line.label in own or reader.sentence(line.label), line.label
            assert line.unit in ("km", "kg", "L") or reader.sentence(line.unit), line.unit
