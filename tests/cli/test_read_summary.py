import pytest
from attrs import evolve

from estimator.cli.read import summary
from estimator.lettering.consensus import Vote
from estimator.plan.edits import rescaled, stacked
from estimator.plan.geometry import rectangle
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Scale, Source, Storey
from estimator.workflow.pages import File, Page
from estimator.workflow.reading import ReadPlan


def vote(says, metres_per_px, *, agrees=True, kind="room sides"):
    return Vote(
        says=says, kind=kind, metres_per_px=metres_per_px, relative_error=0.01, agrees=agrees
    )


@pytest.fixture
def plan():
    room = Room(id="a", name="A", outline_px=rectangle(400, 300))
    return Plan(rooms=(room,))


def test_the_votes_for_the_scale_are_shown_and_who_does_not_agree(plan):
    scale = Scale(metres_per_px=0.01, relative_error=0.005, basis="2 of 3 printed figures")
    votes = (
        vote("A, 4.00 m", 0.0101),
        vote("A, 3.00 m", 0.0099),
        vote("B, 3.20 m", 0.012, agrees=False),
    )

    page = Page(file=File(name="a.png", content=b""), votes=votes)
    shown = summary(ReadPlan(plan=rescaled(plan, scale), pages=(page,)))

    assert shown.splitlines() == [
        "1 rooms, 12.0 m² of floor by 2 of 3 printed figures",
        "  scale: 2 × room sides say 10 mm a pixel",
        "  does not agree: B, 3.20 m says 12 mm a pixel",
    ]


def test_without_a_scale_one_known_length_is_asked_for(plan):
    source = Source(file="a.png", width_px=500, height_px=400)
    plan = evolve(plan, storeys=(Storey(source=source),))

    shown = summary(ReadPlan(plan=plan))

    assert shown.splitlines() == [
        "1 rooms, in proportion but of unknown size",
        "How long is A from left to right, from wall to wall at its longest? "
        "Give one known length: --between 0,150 400,150 LENGTH.",
    ]


def test_a_guessed_scale_is_asked_about_too_and_a_sure_one_is_not(plan):
    source = Source(file="a.png", width_px=500, height_px=400)
    plan = evolve(plan, storeys=(Storey(source=source),))
    guess = Scale(metres_per_px=0.01, relative_error=0.15, basis="a guess")

    assert "Give one known length" in summary(ReadPlan(plan=rescaled(plan, guess)))
    sure = evolve(guess, relative_error=0.01)
    assert "Give one known length" not in summary(ReadPlan(plan=rescaled(plan, sure)))


def test_each_storey_is_listed_and_the_page_to_ask_about_is_named(plan):
    pages = [Source(file="a.pdf", page=page, width_px=500, height_px=400) for page in (1, 2)]
    storeys = [evolve(plan, storeys=(Storey(name="", source=page),)) for page in pages]
    scale = Scale(metres_per_px=0.01, relative_error=0.01, basis="two points 4 m apart")
    both = rescaled(stacked(storeys), scale)

    shown = summary(ReadPlan(plan=both)).splitlines()

    assert shown[0] == "2 rooms, in proportion but of unknown size"
    assert shown[1:3] == ["  storey 1: 1 room, 12.0 m²", "  storey 2: 1 room"]
    assert shown[3].endswith("LENGTH on a.pdf alone, with --page 2.")


def test_five_things_to_check_are_named_worst_first():
    rooms = tuple(
        Room(id=f"{at}", name=f"Room {at}", outline=rectangle(4, 3), confidence=0.8 - at / 10)
        for at in range(1, 8)
    )

    shown = summary(ReadPlan(plan=Plan(rooms=rooms))).splitlines()

    assert shown[1] == "  to check: Room 7 was read with a confidence of 10%."
    assert [line.split()[3] for line in shown[1:6]] == ["7", "6", "5", "4", "3"]
    assert shown[6:] == ["  and 2 more of less weight"]
