"""What questions are worth, against the range itself and against closed forms.

First-order propagation: JCGM 100:2008 (GUM), eq. 10 and 13. The area of a rectangle a·b with both
sides times (1 + e) errs by 2e, its perimeter by e; independent parts add in quadrature.
"""

import numpy as np
import pytest
from attrs import evolve

from estimator.catalogue.loader import packaged_book
from estimator.estimation.answers import (
    with_contents,
    with_film,
    with_heights,
    with_opening_heights,
    with_outline_confirmed,
    with_pace,
)
from estimator.estimation.chain import estimate
from estimator.estimation.job import Job
from estimator.estimation.leeway import USE_ERROR, Growth, liquid_of
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.edits import with_use
from estimator.plan.geometry import rectangle
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Scale, Source, Storey
from estimator.quote.question import Matter
from estimator.surfaces.measure import CONTENTS_ERROR, HEIGHT_ERROR, measure, measure_room
from estimator.surfaces.schedule import SurfaceKind
from estimator.surfaces.scope import Scope

BOOK = packaged_book()
JOB = Job(product=BOOK.products[0].slug, sprayer=BOOK.sprayers[0].slug)
# P10 and P90 of two thousand draws tell a span only so well.
COARSE = 0.15
SILENT = evolve(BOOK, spread=evolve(BOOK.spread, film=0.0, pace=0.0))


def room(name, width=6.0, depth=5.0, left=0.0, **changes):
    outline = rectangle(width, depth, left=left)
    return Room(id=name, name=name.title(), use="office", outline=outline, **changes)


def quoted(plan, book=BOOK, job=JOB):
    return estimate(plan, book, job, date="2026-11-25", version="0")


def about(quote, matter):
    return next(question for question in quote.questions if question.matter is matter)


def half_width(quote):
    return float(quote.range.p90.amount - quote.range.p10.amount) / 2


SITE = Plan(
    rooms=tuple(room(f"office {at}", left=7.0 * at) for at in range(8)),
    storeys=(
        Storey(
            source=Source(file="a.png", width_px=900, height_px=600),
            scale=Scale(metres_per_px=0.01, relative_error=0.06, basis="x"),
        ),
    ),
)


def test_questions_come_by_what_they_are_worth_and_only_when_worth_something():
    found = [question.narrows.amount for question in quoted(SITE).questions]
    assert found == sorted(found, reverse=True)
    assert min(found) > 0


def test_matters_of_the_range_are_asked_for():
    matters = {question.matter for question in quoted(SITE).questions}
    assert {Matter.SCALE, Matter.HEIGHT, Matter.CONTENTS, Matter.PACE} <= matters


def test_rooms_assumed_to_be_alike_are_asked_about_at_once():
    assert about(quoted(SITE, SILENT), Matter.HEIGHT).says == "Ceiling height of all rooms"
    known = with_heights(SITE, [one.id for one in SITE.rooms[1:]], 2.7)
    assert about(quoted(known, SILENT), Matter.HEIGHT).says == "Ceiling height of Office 0"


def test_the_range_narrows_by_what_was_said_when_a_height_is_answered_as_assumed():
    before = quoted(SITE, SILENT)
    question = about(before, Matter.HEIGHT)
    height = BOOK.surfaces.use("office").ceiling_height
    after = quoted(with_heights(SITE, question.rooms, height), SILENT)

    assert after.price.total == before.price.total
    narrowed = half_width(before) - half_width(after)
    assert narrowed == pytest.approx(float(question.narrows.amount), rel=COARSE)


def test_the_range_narrows_by_what_was_said_when_contents_are_as_usual():
    alone = Plan(rooms=(room("office", 30, 20),))
    before = quoted(alone, SILENT)
    question = about(before, Matter.CONTENTS)
    after = quoted(with_contents(alone, "office", 1.0, BOOK.surfaces), SILENT)

    assert after.schedule.treated == pytest.approx(before.schedule.treated)
    narrowed = half_width(before) - half_width(after)
    assert narrowed == pytest.approx(float(question.narrows.amount), rel=COARSE)


@pytest.mark.parametrize("matter", [Matter.PACE, Matter.FILM])
def test_the_range_narrows_by_what_was_said_when_the_firm_knows_its_own_figures(matter):
    answered = {
        Matter.PACE: lambda: with_pace(BOOK, next(p.spray for p in BOOK.paces if p.use == "*")),
        Matter.FILM: lambda: with_film(
            BOOK, next(f.volume for f in BOOK.films if f.lie == "level")
        ),
    }[matter]()
    before, after = quoted(SITE), quoted(SITE, answered)

    assert after.price.total == before.price.total
    narrowed = half_width(before) - half_width(after)
    worth = float(about(before, matter).narrows.amount)
    assert narrowed == pytest.approx(worth, rel=COARSE, abs=0.002 * half_width(before))


def test_an_empty_room_holds_nothing_and_is_not_asked_about_again():
    plan = with_contents(SITE, "office 0", 0.0, BOOK.surfaces)
    row = measure(plan, BOOK.surfaces, Scope()).rooms[0]
    assert not [one for one in row.surfaces if one.kind is SurfaceKind.FURNITURE]
    asked = [one.rooms for one in quoted(plan).questions if one.matter is Matter.CONTENTS]
    assert ("office 0",) not in asked


def test_half_of_the_usual_contents_are_about_half_the_surface():
    def furniture(plan):
        row = measure(plan, BOOK.surfaces, Scope()).rooms[0]
        return sum(one.gross for one in row.surfaces if one.kind is SurfaceKind.FURNITURE)

    large = Plan(rooms=(room("office", 30, 20),))
    half = with_contents(large, "office", 0.5, BOOK.surfaces)
    assert furniture(half) == pytest.approx(furniture(large) / 2, rel=0.1)


def test_a_room_read_weakly_is_asked_about_until_it_is_confirmed():
    weak = room("nook", outline_px=rectangle(600, 500), confidence=0.6)
    plan = evolve(SITE, rooms=(*SITE.rooms[1:], evolve(weak, outline=rectangle(6, 5))))
    question = about(quoted(plan, SILENT), Matter.ROOM)
    assert question.says == "Whether Nook is read rightly"
    sure = quoted(with_outline_confirmed(plan, "nook"), SILENT)
    assert not [one for one in sure.questions if one.matter is Matter.ROOM]


def test_a_doubtful_use_is_asked_about_until_it_is_told():
    doubt = Doubt(aspect=Aspect.USE, room="den", says="x", confidence=0.5)
    plan = Plan(rooms=(room("den", 12, 9),), doubts=(doubt,))
    assert about(quoted(plan, SILENT), Matter.USE).says == "Use of Den"
    told = quoted(with_use(plan, "den", "classroom"), SILENT)
    assert not [one for one in told.questions if one.matter is Matter.USE]


def test_windows_of_unknown_height_are_asked_about_and_doors_that_are_sprayed_are_not():
    openings = tuple(
        Opening(id=f"{kind}-{at}", kind=kind, start=(at, 0.0), end=(at + 1.0, 0.0))
        for at, kind in enumerate((OpeningKind.WINDOW, OpeningKind.DOOR))
    )
    plan = Plan(rooms=(room("hall", 30, 20, openings=openings, empty=True, ceiling_height=2.7),))
    asked = [one for one in quoted(plan, SILENT).questions if one.matter is Matter.OPENINGS]
    assert [one.opening for one in asked] == [OpeningKind.WINDOW]
    told = with_opening_heights(plan, OpeningKind.WINDOW, 1.0, BOOK.surfaces)
    assert {gap.height for one in told.rooms for gap in one.openings} == {1.0, None}
    left = [one for one in quoted(told, SILENT).questions if one.matter is Matter.OPENINGS]
    assert left == []


def test_a_window_that_would_reach_above_the_ceiling_is_refused():
    window = Opening(id="w", kind=OpeningKind.WINDOW, start=(1.0, 0.0), end=(2.0, 0.0))
    plan = Plan(rooms=(room("nook", openings=(window,)),))
    with pytest.raises(ValueError, match="above the ceiling"):
        with_opening_heights(plan, OpeningKind.WINDOW, 5.0, BOOK.surfaces)


def test_a_ceiling_above_what_is_treated_is_of_no_interest():
    low = evolve(JOB, scope=Scope(walls_to=1.5))
    asked = [one.matter for one in quoted(SITE, SILENT, low).questions]
    assert Matter.HEIGHT not in asked


def test_scale_alone_makes_an_area_err_twice_and_a_perimeter_once():
    liquid = liquid_of(SITE, measure(SITE, BOOK.surfaces, Scope()), (), BOOK)
    area, length = (liquid.volume[0, growth] for growth in (Growth.WITH_AREA, Growth.WITH_LENGTH))
    random = np.random.default_rng(1).standard_normal(100_000)
    for volume, growth, power in ((area, Growth.WITH_AREA, 2), (length, Growth.WITH_LENGTH, 1)):
        drawn = volume * (1 + liquid.scale_error[0] * random) ** growth
        assert np.std(drawn) / volume == pytest.approx(power * 0.06, rel=0.03)


def test_heights_assumed_alike_are_wrong_together_and_contents_each_alone():
    schedule = measure(SITE, BOOK.surfaces, Scope())
    liquid = liquid_of(SITE, schedule, schedule.assumed, BOOK)
    heights = [one for one in liquid.leeways if one.subject.matter is Matter.HEIGHT]
    contents = [one for one in liquid.leeways if one.subject.matter is Matter.CONTENTS]
    walls = liquid.volume[0, Growth.WITH_LENGTH]

    assert [one.deviation for one in heights] == [pytest.approx(HEIGHT_ERROR * walls)]
    together = sum(one.deviation**2 for one in contents) ** 0.5
    assert together == pytest.approx(8**0.5 * contents[0].deviation)
    assert len(contents) == 8


def test_surface_of_contents_differs_between_uses_as_is_said():
    kinds = (SurfaceKind.FURNITURE, SurfaceKind.TOUCH_POINT)
    for width, depth in ((4.0, 3.0), (6.0, 5.0)):
        rows = [
            measure_room(evolve(room("a", width, depth), use=use.slug), BOOK.surfaces, Scope())
            for use in BOOK.surfaces.uses
            if not use.outdoors
        ]
        found = [sum(one.treated for one in row.surfaces if one.kind in kinds) for row in rows]
        assert np.std(found) / np.mean(found) == pytest.approx(USE_ERROR, abs=0.05)


def test_contents_said_in_words_leave_less_open_than_contents_assumed():
    said = with_contents(SITE, "office 0", 1.0, BOOK.surfaces)
    (doubt,) = [one for one in said.doubts if one.aspect is Aspect.CONTENTS]
    assert doubt.relative_error < CONTENTS_ERROR
    assert doubt.says == "Office 0 was said to hold what usually stands there."
