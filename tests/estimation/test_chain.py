"""The whole job against the published Case 600 room, and the chain's own promises.

Case 600: ANSI/ASHRAE Standard 140 (BESTEST), a room of 8 × 6 × 2.7 m with two windows of 3 × 2 m.
Film: 40 mL/m², WHO, Vector Control (1997), ch. 9. Strength of 60 % powder and of tablets with 1.5 g
available chlorine: WHO, Laboratory biosafety manual, table 12.
"""

import pytest
from attrs import evolve

from estimator.catalogue.loader import packaged_book
from estimator.errors import NoSuchEntry, PlanError
from estimator.estimation.chain import estimate
from estimator.estimation.job import Job
from estimator.plan.edits import with_height
from estimator.plan.geometry import rectangle
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.price.rates import Per
from estimator.surfaces.scope import Scope
from estimator.treatment.product import Form, Product
from estimator.visit.timetable import Step

BOOK = packaged_book()
WINDOWS = tuple(
    Opening(
        id=f"w{at}",
        kind=OpeningKind.WINDOW,
        start=(left, 6.0),
        end=(left + 3.0, 6.0),
        height=2.0,
        sill=0.2,
    )
    for at, left in enumerate((0.5, 4.5))
)
CASE_600 = Plan(
    title="Case 600",
    rooms=(
        Room(
            id="room",
            name="Room",
            use="room",
            outline=rectangle(8, 6),
            ceiling_height=2.7,
            openings=WINDOWS,
            empty=True,
        ),
    ),
)
BARE = Scope(ceilings=True, doors=False, furniture=False, touch_points=False)


def product(form, **declared):
    return Product(
        slug="made-up", label="Made up", active="chlorine", form=form, basis="label",
        source="invented", as_of="2026", **declared,
    )  # fmt: skip


def case_600(kind):
    """The job of the published chain: 40 mL/m² everywhere, 1000 ppm, nothing lost."""
    zone = evolve(
        next(zone for zone in BOOK.zones if zone.slug == BOOK.surfaces.use("room").zone),
        strength=1.0,
        contact_time=60.0,
    )
    book = evolve(
        BOOK,
        zones=(zone,),
        films=tuple(evolve(film, volume=40e-6, most=60e-6, loss=0.0) for film in BOOK.films),
        products=(kind,),
        measuring=evolve(BOOK.measuring, mark=1e-6, scales=1e-5),
        sprayers=(evolve(BOOK.sprayers[0], slug="s", tank=0.008),),
        surfaces=evolve(
            BOOK.surfaces,
            openings=tuple(evolve(usual, reveal=0.0) for usual in BOOK.surfaces.openings),
        ),
        rates=evolve(
            BOOK.rates,
            products=(evolve(BOOK.rates.products[0], product="made-up", per=Per.KILOGRAM),),
        ),
    )
    job = Job(product="made-up", sprayer="s", scope=BARE)
    return estimate(CASE_600, book, job, date="2026-11-25", version="0")


def test_case_600_takes_the_published_surface_and_solution():
    quote = case_600(product(Form.POWDER, available_share=0.6))
    assert quote.schedule.floor_area == pytest.approx(48.0)
    assert quote.schedule.treated == pytest.approx(159.6)
    assert quote.solution.volume == pytest.approx(6.384e-3)
    (mix,) = quote.solution.mixes
    assert mix.powder == pytest.approx(10.64e-3)
    assert len(mix.fills) == 1


def test_case_600_takes_five_whole_tablets_and_says_how_strong_they_make_it():
    quote = case_600(product(Form.TABLET, available_per_tablet=1.5e-3))
    (mix,) = quote.solution.mixes
    assert mix.tablets == 5
    # 7.5 g in 6.384 L is 1175 ppm when no more is made up than is needed.
    assert mix.strength == pytest.approx(7.5e-3 / mix.made, rel=1e-9)
    assert 1.0 <= mix.strength <= 1.175 + 5e-4


def test_a_quote_is_the_same_whenever_it_is_made_from_the_same():
    job = Job(product=BOOK.products[0].slug, sprayer=BOOK.sprayers[0].slug)
    one, same = (estimate(CASE_600, BOOK, job, date="2026-11-25", version="0") for _ in range(2))
    assert one == same
    other = estimate(with_height(CASE_600, "room", 3.0), BOOK, job, date="2026-11-25", version="0")
    assert other.provenance.plan_digest != one.provenance.plan_digest
    assert other.provenance.book_digest == one.provenance.book_digest
    assert other.schedule.treated > one.schedule.treated


def test_the_crew_works_in_the_order_of_strengths_that_the_label_asks_for():
    rooms = (
        Room(id="b", name="B", use="restaurant_kitchen", outline=rectangle(6, 5)),
        Room(id="a", name="A", use="exam_room", outline=rectangle(4, 3, left=7)),
    )

    def sprayed(**facts):
        kind = evolve(BOOK.products[0], **facts)
        book = evolve(BOOK, products=(kind,))
        job = Job(product=kind.slug, sprayer=BOOK.sprayers[0].slug)
        quote = estimate(Plan(rooms=rooms), book, job, date="2026-11-25", version="0")
        tasks = sorted(quote.timetable.tasks, key=lambda task: task.start)
        strengths = [task.strength for task in tasks if task.step is Step.SPRAY]
        return strengths, [mix.wanted for mix in quote.solution.mixes]

    for strong_first in (False, True):
        strengths, mixed = sprayed(strong_first=strong_first)
        assert len(set(strengths)) == 2
        assert strengths == sorted(strengths, reverse=strong_first)
        assert mixed == sorted(mixed, reverse=strong_first)


def test_a_plan_without_rooms_is_refused():
    job = Job(product=BOOK.products[0].slug, sprayer=BOOK.sprayers[0].slug)
    with pytest.raises(PlanError, match="it has no rooms; draw or type at least one"):
        estimate(Plan(), BOOK, job, date="2026-11-25", version="0")


@pytest.mark.parametrize("wrong", [{"product": "elixir"}, {"sprayer": "elixir"}])
def test_what_the_book_lacks_is_refused_by_name(wrong):
    job = evolve(Job(product=BOOK.products[0].slug, sprayer=BOOK.sprayers[0].slug), **wrong)
    with pytest.raises(NoSuchEntry, match="elixir: the book has no such"):
        estimate(CASE_600, BOOK, job, date="2026-11-25", version="0")
