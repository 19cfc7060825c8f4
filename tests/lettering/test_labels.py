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
        ("Maßstab 1/100", [StatedScale]),
        ("Échelle 1/50e", [StatedScale]),
        ("Ech. 1:100", [StatedScale]),
        ("Esc. 1/75", [StatedScale]),
        ("1:50@A3", [StatedScale]),
        ("Not to scale", [NotToScale]),
        ("N.T.S.", [NotToScale]),
        ("For illustrative purposes only", [NotToScale]),
        ("Nicht maßstäblich", [NotToScale]),
        ("Nicht maßstabsgetreu", [NotToScale]),
        ("Sans échelle", [NotToScale]),
        ("No está a escala", [NotToScale]),
        ("Chambre 1 : 11,50 m²", [FloorArea, RoomName]),
        ("12,34 m² Küche", [FloorArea, RoomName]),
        ("Living 5.2x4.1 21.3m2", [FloorArea, RoomSize, RoomName]),
        ("Bedroom 1 13'9\" x 11'2\" (4.19m x 3.40m)", [RoomSize, RoomName]),
        ("528", [Mark, WallLength]),
        ("Ceiling height 2.45 m", []),
        ("HSP 2,50 m", []),
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


@pytest.mark.parametrize(
    "text",
    [
        "Total area: 84.5 sq m",
        "GIA 84.5 m²",
        "Wohnfläche ca. 84,5 m²",
        "Wohnfl. 84,5 qm",
        "Surface habitable : 84,50 m²",
        "SHAB 84,5 m²",
        "Loi Carrez : 84,5 m²",
        "Superficie útil 84,5 m²",
        "Sup. construida: 84,5 m2",
    ],
)
def test_totals_are_known_in_four_languages(line, words, text):
    (total,) = labels_of([line(text)], words)

    assert (total.area, total.says_total) == (84.5, True)


def test_the_number_in_a_name_is_no_size(line, words):
    size, name = labels_of([line("Bedroom 2 3.45 x 4.20 m")], words)

    assert name.text == "Bedroom 2"
    assert (size.sizes.likeliest.width, size.sizes.likeliest.depth) == (3.45, 4.2)


def test_a_name_keeps_its_number_before_an_area(line, words):
    _, name = labels_of([line("Dorm. 1 12,30 m2")], words)

    assert (name.text, name.use) == ("Dorm. 1", "bedroom")


def test_a_stated_scale_keeps_its_sheet(line, words):
    (label,) = labels_of([line("Scale 1:50 on A3")], words)

    assert (label.scale.ratio, label.scale.sheet) == (50.0, "A3")


def test_names_in_capitals_are_shown_as_plain_ones(line, words):
    texts = [label.text for label in labels_of([line("MASTER BEDROOM"), line("WC2")], words)]

    assert texts == ["Master Bedroom", "WC 2"]


def test_a_name_seen_weakly_is_left(line, words):
    assert labels_of([line("Kitchen", confidence=0.55)], words) == ()
