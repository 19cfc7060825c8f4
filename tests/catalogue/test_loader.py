from decimal import Decimal

import pytest

from estimator.catalogue.loader import book, packaged_book
from estimator.errors import BadEntries, CatalogueError


@pytest.fixture
def written(tmp_path):
    """Write a data file."""

    def written(text, name="firm.toml"):
        path = tmp_path / name
        path.write_text(text, "utf-8")
        return path

    return written


def sourced(text):
    return f'{text}\nsource = "our own measurement"\nas_of = 2026-11-25\n'


def mistakes(*paths):
    with pytest.raises(BadEntries) as caught:
        book(*paths)
    return str(caught.value)


def test_a_row_given_again_changes_only_the_keys_it_names(written):
    ours = book(written(sourced('[zones.general]\nstrength = "500 ppm"')))
    general = next(zone for zone in ours.zones if zone.slug == "general")

    assert general.strength == pytest.approx(0.5)
    assert general.contact_time == pytest.approx(60)
    assert general.as_of == "2026-11-25"
    assert general.source.startswith("our own measurement; otherwise 0.1 %: WHO")
    assert len(ours.zones) == len(packaged_book().zones)


def test_a_new_row_is_added(written):
    row = """
[furniture.piano]
label = "Piano"
length = "1.5 m"
depth = "2 ft"
height = "4'-2\\""
solids = [{ solid = "box", height = "1.2 m" }]
against_wall = true
"""
    piano = book(written(sourced(row))).surfaces.kind("piano")

    assert piano.depth == pytest.approx(0.6096)
    assert piano.height == pytest.approx(1.27)
    assert piano.against_wall


def test_the_jobs_file_wins_over_the_firms(written):
    firm = written(sourced('[rates]\nlabour_per_hour = 31.10\noverhead = "0.2"'))
    job = written(sourced("[rates]\nlabour_per_hour = 40"), "job.toml")
    rates = book(firm, job).rates

    assert rates.labour_per_hour == Decimal("40")
    assert rates.overhead == Decimal("0.2")
    assert rates.currency == "USD"
    assert len(rates.products) == len(packaged_book().products)


def test_amounts_are_exactly_as_written(written):
    assert book(written(sourced("[rates]\nlabour_per_hour = 31.10"))).rates.labour_per_hour == (
        Decimal("31.1")
    )


def test_all_mistakes_of_all_files_are_named_at_once(written):
    firm = written(
        sourced('[zones.general]\nstrength = "500"\ncontact = "1 min"')
        + sourced('[furniture.desk]\nlength = 1.5\nheight = "2 kg"')
        + "[paces.kitchen]\nspray = '5 m^2/min'\n"
    )
    job = written(
        sourced("[price.desk]\namount = 1") + sourced("[rates]\noverhead = -1"), "job.toml"
    )
    says = mistakes(firm, job)

    for expected in (
        "book: 8 mistakes: ",
        "firm.toml, [zones.general] strength: “500” it has no unit",
        "firm.toml, [zones.general] contact: there is no such key; the keys are slug, label",
        "firm.toml, [furniture.desk] length: write 1.5 in quotes with its unit",
        "firm.toml, [furniture.desk] height: “2 kg”",
        "firm.toml, [paces.kitchen] source: every row must say it",
        "firm.toml, [paces.kitchen] as_of: every row must say it",
        "job.toml, [price]: no such section",
        "job.toml, [rates] overhead: it must be at least 0 (got -1)",
    ):
        assert expected in says


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ('[zones.pool]\nlabel = "Pool"\nstrength = "1 ppm"', "it lacks contact_time"),
        ('[zones.general]\nslug = "x"', "slug: the heading already says it"),
        ('[zones.general]\nlabel = ""', "label: it is empty"),
        ("[zones.general]\nlabel = 5", "label: 5 is not words in quotes"),
        ('[zones.general]\nstrength = "0 ppm"', "its strength is 0 ppm"),
        ('[films.upright]\nvolume = "90 mL/m^2"', "more than a pass can lay"),
        ("[films.sideways]\nloss = 0.1", "'sideways' is none of level, upright"),
        ("[films.upright]\nloss = true", "loss: True is no number"),
        ("[films.upright]\nloss = nan", "loss: it must be at least 0"),
        ("[films.upright]\nloss = 1.5", "at most 1"),
        ('[furniture.desk]\nsolids = "box"', "a list in square brackets was asked for"),
        ('[furniture.desk]\nsolids = [{ solid = "ball" }]', "solid = one of box, slab, legs"),
        ('[furniture.desk]\nsolids = [{ solid = "box" }]', "solids: box: it lacks height"),
        ('[furniture.desk]\nsolids = [{ solid = "box", tall = 1 }]', "box: tall: there is no such"),
        (
            '[furniture.desk]\nsolids = [{ solid = "shelves", count = -4 }]',
            "shelves: count: it must be at least 0 (got -4)",
        ),
        ("[furniture.desk]\nsolids = [5]", "a table with solid ="),
        ("[furniture.desk]\nagainst_wall = 1", "1 is not true or false"),
        ('[furniture.desk]\nzone = "moon"', "it names moon, which is not among the zones"),
        ('[uses.office]\ncontents = [{ kind = "throne" }]', "it names throne"),
        ("[uses.office]\ncontents = [3]", "a table in curly brackets was asked for"),
        ('[paces.moon]\nspray = "1 m^2/s"', "it lacks prepare, wipe, air_changes"),
        ("[rates]\nproducts = []", "products: there is no such key"),
        ('[rates]\noverhead = "much"', "'much' is no amount"),
        ('[products.tablets_1500]\nform = "gas"', "'gas' is none of tablet, liquid"),
        ("[zones]\ngeneral = 5", "[zones] general: a row must be a table"),
        ("zones = 5", "zones: it must be a table"),
    ],
)
def test_a_mistake_is_told_in_one_sentence(written, row, says):
    told = mistakes(written(sourced(row)))

    assert says in told
    assert told.startswith("book: ")
    assert told.endswith("; mend the file and load it again.")


def test_a_file_that_is_not_toml_is_told(written):
    assert "firm.toml, file: it is not TOML" in mistakes(written("[zones"))


def test_a_file_that_cannot_be_opened_is_told(tmp_path):
    with pytest.raises(CatalogueError, match=r"none.toml: it cannot be opened"):
        book(tmp_path / "none.toml")
    with pytest.raises(CatalogueError, match="cannot be opened"):
        book(tmp_path)


def test_a_file_that_is_not_text_is_told(tmp_path):
    path = tmp_path / "firm.toml"
    path.write_bytes(b"\xff\xfe\x00")

    with pytest.raises(CatalogueError, match=r"firm.toml: it is not a text file"):
        book(path)


def test_a_file_saved_with_a_byte_order_mark_is_read(tmp_path):
    path = tmp_path / "firm.toml"
    path.write_text(sourced("[spread]\nfilm = 0.2"), "utf-8-sig")

    assert book(path).spread.film == 0.2


def test_the_packaged_book_is_loaded_once():
    assert packaged_book() is packaged_book()
    assert packaged_book() == book()


PRODUCT = """
[products.ours]
label = "Ours"
active = "sodium hypochlorite"
form = "liquid"
"""


def test_a_product_is_read_as_its_label_declares_it(written):
    # Handbook of Chlorination: 12.5 % trade is 125 g/L, 5.25 % NaOCl by weight at 1.08 is 54 g/L
    def strength(declared):
        ours = book(written(sourced(f'{PRODUCT}declared = "{declared}"')))
        return ours.product("ours").available_strength

    assert strength("12.5 % trade") == pytest.approx(125.0)
    assert strength("5.25 % NaOCl by weight, SG 1.08") == pytest.approx(54.0, abs=0.05)


def test_the_uses_of_a_label_are_rows_within_its_row(written):
    uses = (
        'uses = [{ label = "Hard", least = "900 ppm", most = "1100 ppm", contact_time = "5 min", '
    )
    ours = book(written(sourced(f'{PRODUCT}declared = "5 % w/v"\n{uses}zones = ["general"] }}]')))
    (use,) = ours.product("ours").uses

    assert (use.least, use.most, use.contact_time, use.zones) == (0.9, 1.1, 300.0, ("general",))
    assert "names nowhere, which is not among the zones" in mistakes(
        written(sourced(f'{PRODUCT}declared = "5 % w/v"\n{uses}zones = ["nowhere"] }}]'))
    )


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ('declared = "12.5 %"', "does not say per cent of what"),
        ('available_strength = "12.5 %"\nbasis = "label"', "does not say per cent of what"),
        ("declared = 12.5", "write it in quotes"),
        ('declared = "5 % w/v"\nexpires = "soon"', "is no date"),
    ],
)
def test_a_strength_that_does_not_say_of_what_is_a_mistake(written, row, says):
    assert says in mistakes(written(sourced(PRODUCT + row)))


def test_zones_by_use_and_surface_name_uses_and_zones_of_the_book(written):
    rule = '[zoning.ours]\nuses = ["kitchen"]\nsurfaces = ["touch point"]\nzone = "mild"'

    assert book(written(sourced(rule))).zoning[-1].zone == "mild"
    assert "nowhere" in mistakes(written(sourced(rule.replace("mild", "nowhere"))))
    assert "attic" in mistakes(written(sourced(rule.replace("kitchen", "attic"))))


def test_air_that_cannot_be_is_a_mistake(written):
    assert "humidity" in mistakes(written(sourced('[air]\nhumidity = "110 %"')))
    assert "it has no unit" in mistakes(written(sourced('[air]\ntemperature = "20"')))
