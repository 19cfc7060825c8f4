"""Every row of the packaged book loads, fits together and says where it comes from."""

import tomllib
from importlib.resources import files

import pytest

from estimator.catalogue.loader import SINGLE, TABLES, packaged_book
from estimator.surfaces.schedule import Lie
from estimator.surfaces.solids import Box, Legs, Panel, Slab

FILES = sorted(
    (
        file
        for file in files("estimator.catalogue").joinpath("data").iterdir()
        if file.name.endswith(".toml")
    ),
    key=lambda file: file.name,
)

USES = """
    bedroom living_room kitchen dining_room bathroom toilet hall corridor stairs closet utility_room
    office open_office meeting_room reception waiting_room exam_room treatment_room classroom
    nursery_room staff_room storage shop_floor restaurant_dining restaurant_kitchen gym laundry
    server_room lobby garage balcony room
""".split()  # noqa: SIM905 - a list of words reads best as words

FURNITURE = """
    bed_single bed_double crib bedside_table wardrobe chest_of_drawers sofa armchair coffee_table
    tv_unit bookcase dining_table dining_chair kitchen_base_unit kitchen_wall_unit kitchen_island
    refrigerator cooker dishwasher washing_machine sink toilet urinal wash_basin bath shower desk
    task_chair meeting_table meeting_chair filing_cabinet office_shelving printer reception_counter
    waiting_chair bench student_desk student_chair teacher_desk whiteboard locker toy_shelf toy_box
    play_table exam_couch medical_cabinet trolley privacy_screen restaurant_table restaurant_chair
    bar_counter prep_table display_case toilet_partition hand_dryer vending_machine plant
    table chair cupboard worktop stairs
""".split()  # noqa: SIM905 - a list of words reads best as words


@pytest.fixture(scope="module")
def book():
    return packaged_book()


def rows(file):
    """Return every row of a data file with its section and name."""
    for section, content in tomllib.loads(file.read_text("utf-8")).items():
        named = {"": content} if section in SINGLE else content
        for name, row in named.items():
            yield section, name, row


def test_every_row_of_every_file_is_in_the_book(book):
    written = [(section, name) for file in FILES for section, name, _ in rows(file)]
    held = {
        "uses": book.surfaces.uses,
        "furniture": book.surfaces.furniture,
        "openings": book.surfaces.openings,
        "zones": book.zones,
        "films": book.films,
        "zoning": book.zoning,
        "products": book.products,
        "sprayers": book.sprayers,
        "paces": book.paces,
        "precautions": book.precautions,
        "prices": book.rates.products,
        "premiums": book.rates.premiums,
        "term_discounts": book.rates.term_discounts,
        "places": book.rates.places,
        "options": book.options,
    }

    assert set(held) == set(TABLES)
    assert len(written) == len(set(written)) == sum(map(len, held.values())) + len(SINGLE)


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_every_row_says_its_source_and_date(file):
    for section, name, row in rows(file):
        assert len(row["source"]) > 10, (section, name)
        assert row["as_of"].startswith("20"), (section, name)


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_every_file_explains_every_key_at_its_head(file):
    text = file.read_text("utf-8")
    head = text[: text.index("\n[")] if text.startswith("#") else ""
    keys = {key for _, _, row in rows(file) for key in row}

    assert keys, file.name
    assert not [key for key in keys if key not in head]


def test_the_book_has_the_uses_and_furniture_that_others_rely_on(book):
    assert [use.slug for use in book.surfaces.uses] == USES
    assert [kind.slug for kind in book.surfaces.furniture] == FURNITURE
    assert len(FURNITURE) >= 40


def test_contents_zones_paces_and_prices_name_rows_that_exist(book):
    zones = {zone.slug for zone in book.zones}
    kinds = {kind.slug for kind in book.surfaces.furniture}
    uses = {use.slug for use in book.surfaces.uses}

    assert {use.zone for use in book.surfaces.uses} <= zones
    assert {kind.zone for kind in book.surfaces.furniture} <= zones | {None}
    assert {content.kind for use in book.surfaces.uses for content in use.contents} <= kinds
    assert {pace.use for pace in book.paces} <= uses | {"*"}
    assert "*" in {pace.use for pace in book.paces}
    assert {price.product for price in book.rates.products} == {p.slug for p in book.products}
    assert {film.lie for film in book.films} == set(Lie)


@pytest.mark.parametrize("section", ["uses", "furniture"])
def test_an_everyday_word_means_one_thing(book, section):
    words = [word for row in getattr(book.surfaces, section) for word in row.words]

    assert sorted(words) == sorted(set(words))
    assert all(word == word.lower().strip() for word in words)


def test_solids_fit_within_the_height_of_their_kind(book):
    for kind in book.surfaces.furniture:
        tops = [
            solid.base + (solid.thickness if isinstance(solid, Slab) else solid.height)
            for solid in kind.solids
            if isinstance(solid, Box | Slab | Panel)
        ] + [solid.height for solid in kind.solids if isinstance(solid, Legs)]

        assert max(tops, default=kind.height) == pytest.approx(kind.height, abs=0.06), kind.slug


def test_every_family_has_members_to_be_taken_for(book):
    kinds = book.surfaces.furniture
    for family in {kind.family for kind in kinds if kind.family == kind.slug}:
        assert sum(kind.family == family for kind in kinds) > 1


def test_strengths_stay_within_what_trade_and_guidance_span(book):
    # About 50 ppm for toys in child care up to about 4,000 ppm for hospital grade is common
    # practice; 5,000 ppm for dirty conditions is WHO, Laboratory biosafety manual. 1 ppm = 1 mg/L.
    strengths = {zone.slug: 1000 * zone.strength for zone in book.zones}

    assert strengths["toys"] == pytest.approx(50)
    assert strengths["hospital"] == pytest.approx(4000)
    assert strengths["general"] == pytest.approx(1000)
    assert strengths["food_contact"] <= 200
    assert max(strengths.values()) == pytest.approx(5000)


def test_upright_walls_take_the_film_of_who_wall_spraying(book):
    # WHO, Vector control (1997), chapter 9: 40 mL/m2, so 8 L cover 200 m2.
    upright = next(film for film in book.films if film.lie is Lie.UPRIGHT)

    assert 0.008 / upright.volume == pytest.approx(200)


def test_no_label_is_taken_as_read(book):
    assert all(product.charged_mist is None and product.most is None for product in book.products)
