import pytest
from attrs import evolve

from estimator.errors import EstimatorError
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.edits import renamed
from estimator.quantities import Units
from estimator.quote.question import Matter
from estimator.workflow.answering import answered, asked_for, choices, example, told_size
from estimator.workflow.measuring import standard_book
from estimator.workflow.quoting import estimate, usual_job
from estimator.workflow.samples import samples
from estimator.workflow.scaling import KnownLength, scaled_by
from estimator.workflow.sketching import sketch_plan
from estimator.workflow.work import Work

BOOK = standard_book()
QUIET = evolve(BOOK, spread=evolve(BOOK.spread, film=0.0, pace=0.0))


def work(plan, book=QUIET):
    return Work(plan=plan, book=book, job=usual_job(book))


def quoted(one):
    return estimate(one.plan, book=one.book, job=one.job)


def width(one):
    found = quoted(one).range
    return found.p90.amount - found.p10.amount


def question(one, matter):
    return next(asked for asked in quoted(one).questions if asked.matter is matter)


OFFICES = sketch_plan("office, 3 offices 6 x 5 m, 1 window")


@pytest.mark.parametrize(
    ("matter", "said", "units"),
    [
        (Matter.HEIGHT, "2.7", Units.METRIC),
        (Matter.HEIGHT, "9", Units.US),
        (Matter.SIZE, "4 x 3", Units.METRIC),
        (Matter.SIZE, "13' x 10'", Units.METRIC),
        (Matter.CONTENTS, "As usual", Units.METRIC),
    ],
)
def test_an_answer_narrows_the_range(matter, said, units):
    before = work(OFFICES)
    after = answered(before, question(before, matter), said, units)
    assert width(after) < width(before)
    asked = {(one.matter, one.rooms) for one in quoted(after).questions}
    if matter is not Matter.CONTENTS:
        assert (matter, question(before, matter).rooms) not in asked


def test_the_height_of_the_windows_is_told_for_all_of_them():
    plan = sketch_plan("hall 30 x 20 m, 3 windows, ceilings 2.7 m")
    before = work(evolve(plan, rooms=tuple(evolve(room, empty=True) for room in plan.rooms)))
    after = answered(before, question(before, Matter.OPENINGS), "1.1", Units.METRIC)
    assert {gap.height for gap in after.plan.rooms[0].openings} == {1.1}
    assert width(after) < width(before)


@pytest.mark.parametrize(
    ("matter", "said"),
    [(Matter.PACE, "600"), (Matter.PACE, "6500 ft²/h"), (Matter.FILM, "40 mL/m²")],
)
def test_the_firm_tells_its_own_figures(matter, said):
    before = work(sketch_plan("6 offices 6 x 5 m"), BOOK)
    after = answered(before, question(before, matter), said, Units.METRIC)
    spread = after.book.spread
    assert spread.film + spread.pace < BOOK.spread.film + BOOK.spread.pace
    assert after.plan is before.plan


def test_a_length_told_for_a_read_plan_sizes_it():
    sample = next(one for one in samples() if one.picture.stem == "larkfield-family-home")
    plan = sample.truth()
    room = plan.rooms[0]
    left, top, right, _ = room.outline_px.bounds
    rough = KnownLength(start_px=(left, top), end_px=(right, top), length=4.0)
    plan = scaled_by(plan, rough)
    doubtful = evolve(plan.storeys[0].scale, relative_error=0.08)
    before = work(evolve(plan, storeys=(evolve(plan.storeys[0], scale=doubtful),)))
    scale = question(before, Matter.SCALE)

    assert asked_for(scale, before.plan).startswith("How long is")
    after = answered(before, scale, "5 m", Units.METRIC)
    assert width(after) < width(before)


def test_a_use_is_chosen_and_a_room_that_is_none_is_taken_away():
    doubt = Doubt(aspect=Aspect.USE, room="room-1", says="x", confidence=0.5)
    before = work(evolve(OFFICES, doubts=(doubt,)))
    use = question(before, Matter.USE)
    assert "Kitchen" in choices(use, BOOK)
    after = answered(before, use, "Kitchen", Units.METRIC)
    assert after.plan.rooms[0].use == "kitchen"
    weak = tuple(evolve(room, outline_px=room.outline, confidence=0.6) for room in OFFICES.rooms)
    read = work(evolve(OFFICES, rooms=weak, doubts=()))
    room = question(read, Matter.ROOM)
    right, none = choices(room, BOOK)
    assert answered(read, room, right, Units.METRIC).plan.room(room.rooms[0]).confidence == 1
    left = answered(read, room, none, Units.METRIC).plan.rooms
    assert room.rooms[0] not in {one.id for one in left}


@pytest.mark.parametrize(
    "said", ["", "tall", "0", "0 x 0", "900 m", "-2", "1e9", "<script>", "x" * 10_000]
)
@pytest.mark.parametrize("matter", [Matter.HEIGHT, Matter.SIZE, Matter.PACE, Matter.FILM])
def test_an_answer_that_is_none_is_one_sentence(matter, said):
    before = work(renamed(OFFICES, "room-1", "Nook"), BOOK if matter is Matter.PACE else QUIET)
    asked = evolve(quoted(before).questions[0], matter=matter, rooms=("room-1",))
    with pytest.raises(EstimatorError) as caught:
        answered(before, asked, said, Units.METRIC)
    assert str(caught.value).endswith(".")
    assert len(str(caught.value)) < 400


def test_examples_can_be_taken_as_they_stand():
    before = work(sketch_plan("office, 3 offices 6 x 5 m, 1 window"), BOOK)
    for units in Units:
        for asked in quoted(before).questions:
            if not choices(asked, BOOK):
                assert answered(before, asked, example(asked, units), units) is not before


def test_a_size_is_told_in_any_unit():
    assert told_size("12' x 10'", Units.METRIC) == pytest.approx((3.6576, 3.048))
    assert told_size("12 by 10", Units.US) == pytest.approx((3.6576, 3.048))
