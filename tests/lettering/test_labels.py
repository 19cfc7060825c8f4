import pytest

from estimator.lettering.labels import (
    FloorArea,
    Mark,
    NotToScale,
    RoomName,
    RoomSize,
    StatedScale,
    WallLength,
    labels_of,
)


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("KITCHEN", [RoomName]),
        ("12'-6\" x 10'0\"", [RoomSize]),
        ("Bedroom 2 3.45 x 4.20 m", [RoomSize, RoomName]),
        ("Kitchen: 3.45m x 4.20m", [RoomSize, RoomName]),
        ("14.2 m²", [FloorArea]),
        ("Hall 14.2 m²", [FloorArea, RoomName]),
        ("TOTAL APPROX. FLOOR AREA 1065 SQ.FT.", [FloorArea]),
        ("5.28 m", [WallLength]),
        ("12460", [WallLength]),
        ("4", [Mark]),
        ("Scale 1:50 on A3", [StatedScale]),
        ("Maßstab 1 : 100", [StatedScale]),
        ('1/4" = 1\'-0"', [StatedScale]),
        ("Not to scale", [NotToScale, RoomName]),
        ("Nicht maßstäblich", [NotToScale, RoomName]),
        ("X", []),
        ("—", []),
        ("IN", []),
    ],
)
def test_lines_are_sorted_by_what_they_say(line, words, text, kinds):
    assert [type(label) for label in labels_of([line(text)], words)] == kinds


def test_a_total_says_so_and_a_rooms_area_does_not(line, words):
    total, room = labels_of(
        [line("Gross Internal Area 770 sq ft / 71 sq m"), line("13.6 m²")], words
    )

    assert (total.area, total.says_total) == (71.0, True)
    assert (room.area, room.says_total) == (13.6, False)


def test_the_number_in_a_name_is_no_size(line, words):
    size, name = labels_of([line("Bedroom 2 3.45 x 4.20 m")], words)

    assert name.text == "Bedroom 2"
    assert (size.sizes.likeliest.width, size.sizes.likeliest.depth) == (3.45, 4.2)


def test_a_stated_scale_keeps_its_sheet(line, words):
    (label,) = labels_of([line("Scale 1:50 on A3")], words)

    assert (label.scale.ratio, label.scale.sheet) == (50.0, "A3")


def test_names_in_capitals_are_shown_as_plain_ones(line, words):
    texts = [label.text for label in labels_of([line("MASTER BEDROOM"), line("WC2")], words)]

    assert texts == ["Master Bedroom", "WC 2"]


def test_a_name_seen_weakly_is_left(line, words):
    assert labels_of([line("Kitchen", confidence=0.55)], words) == ()
