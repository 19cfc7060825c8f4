"""Rooms are drawn here at 1 cm a pixel, so that the truth is exact; the rules are our own."""

import pytest
from shapely.geometry import box

from estimator.lettering.labels import labels_of
from estimator.lettering.naming import placed
from estimator.lettering.parting import parted
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room

SCALE = 0.01  # metres a pixel


def parts(outline, lines, words, scale=SCALE, rooms=()):
    plan = Plan(rooms=(Room(id="a", name="A", outline_px=outline), *rooms))
    return parted(plan, placed(labels_of(lines, words), plan), scale)


def tag(line, name, size, at):
    return [line(name, at), line(size, (at[0], at[1] + 12))]


def sides(room):
    left, top, right, bottom = room.outline_px.bounds
    return right - left, bottom - top


def test_an_open_room_is_cut_to_the_sizes_it_prints(line, words):
    lines = tag(line, "Kitchen", "3.00 x 4.00 m", (150, 200))
    lines += tag(line, "Living Room", "5.00 x 4.00 m", (550, 200))

    found = parts(box(0, 0, 800, 400), lines, words)

    assert [sides(room) for room in found.rooms] == [
        pytest.approx((500, 400), abs=5),
        pytest.approx((300, 400), abs=5),
    ]
    assert "parted" in found.doubts[0].says


def test_it_is_cut_along_the_wall_that_juts_out_where_the_sizes_agree(line, words):
    room = box(0, 0, 490, 700) - box(0, 345, 40, 355)
    lines = tag(line, "Lounge", "4.90 x 3.50 m", (250, 150))
    lines += tag(line, "Dining Room", "4.90 x 3.50 m", (250, 550))

    found = parts(room, lines, words)

    assert [sides(room)[1] for room in found.rooms] == [pytest.approx(350, abs=6)] * 2


def test_three_sizes_make_three_parts(line, words):
    lines = [
        *tag(line, "Kitchen", "3.00 x 4.00 m", (150, 200)),
        *tag(line, "Living Room", "5.00 x 4.00 m", (550, 200)),
        *tag(line, "Dining Room", "8.00 x 3.00 m", (400, 550)),
    ]

    found = parts(box(0, 0, 800, 700), lines, words)

    assert sorted(round(room.outline_px.area * SCALE**2, 1) for room in found.rooms) == [
        pytest.approx(12, abs=0.3),
        pytest.approx(20, abs=0.3),
        pytest.approx(24, abs=0.3),
    ]


def test_printed_areas_part_a_room_as_well(line, words):
    lines = tag(line, "Küche", "12,0 m²", (150, 200)) + tag(line, "Wohnen", "20,0 m²", (550, 200))

    found = parts(box(0, 0, 800, 400), lines, words)

    assert [room.outline_px.area * SCALE**2 for room in found.rooms] == [
        pytest.approx(20, rel=0.02),
        pytest.approx(12, rel=0.02),
    ]


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("8.00 x 4.00 m", "3.00 x 4.00 m"),  # together more than the room
        ("2.00 x 2.00 m", "3.00 x 4.00 m"),  # together less
        ("8.00 x 2.00 m", "4.00 x 4.00 m"),  # no cut between the names makes these
    ],
)
def test_sizes_that_do_not_make_the_room_leave_it_whole(line, words, one, other):
    lines = tag(line, "Kitchen", one, (150, 200)) + tag(line, "Living Room", other, (550, 200))

    assert len(parts(box(0, 0, 800, 400), lines, words).rooms) == 1


def test_one_size_for_all_of_it_leaves_a_room_whole(line, words):
    room = box(0, 0, 500, 400) | box(510, 0, 800, 400) | box(500, 100, 510, 180)
    lines = [*tag(line, "Living Room", "8.00 x 4.00 m", (250, 200)), line("Kitchen", (650, 200))]

    assert len(parts(room, lines, words).rooms) == 1


def test_names_alone_part_a_room_at_a_neck_only(line, words):
    lines = [line("Living Room", (250, 200)), line("Kitchen", (650, 200))]
    with_neck = box(0, 0, 500, 400) | box(510, 0, 800, 400) | box(500, 100, 510, 180)

    assert len(parts(with_neck, lines, words, scale=None).rooms) == 2
    assert len(parts(box(0, 0, 800, 400), lines, words, scale=None).rooms) == 1


def test_parts_are_open_to_each_other_and_keep_their_doors(line, words):
    door = Opening(
        id="d", kind=OpeningKind.DOOR, start_px=(790, 0), end_px=(710, 0), leads_to="hall"
    )
    back = Opening(
        id="e", kind=OpeningKind.DOOR, start_px=(790, -10), end_px=(710, -10), leads_to="a"
    )
    hall = Room(id="hall", name="Hall", outline_px=box(0, -110, 800, -10), openings=(back,))
    plan = Plan(
        rooms=(Room(id="a", name="A", outline_px=box(0, 0, 800, 400), openings=(door,)), hall)
    )
    lines = tag(line, "Living Room", "5.00 x 4.00 m", (250, 200))
    lines += tag(line, "Kitchen", "3.00 x 4.00 m", (650, 200))

    living, kitchen, beyond = parted(plan, placed(labels_of(lines, words), plan), SCALE).rooms

    assert [opening.leads_to for opening in living.openings] == [kitchen.id]
    assert [opening.leads_to for opening in kitchen.openings] == ["hall", living.id]
    assert [opening.leads_to for opening in beyond.openings] == [kitchen.id]
    assert {opening.kind for opening in living.openings} == {OpeningKind.PASSAGE}
    assert living.openings[0].start_px != living.openings[0].end_px
