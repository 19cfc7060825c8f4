from estimator.lettering.labels import labels_of
from estimator.lettering.tags import tags_of


def tags(lines, words):
    return tags_of(labels_of(lines, words))


def test_each_size_goes_to_the_name_nearest_to_it(line, words):
    found = tags(
        [
            line("Kitchen", (100, 100)),
            line("2.00 x 3.00 m", (100, 112)),
            line("Living Room", (300, 100)),
            line("5.00 x 4.00 m", (300, 112)),
        ],
        words,
    )

    assert [(tag.name, tag.use, round(tag.floor, 1)) for tag in found] == [
        ("Kitchen", "kitchen", 6.0),
        ("Living Room", "living_room", 20.0),
    ]


def test_an_area_is_the_floor_of_its_name_and_a_total_is_not(line, words):
    (tag,) = tags(
        [
            line("Kitchen", (100, 100)),
            line("11.5 m²", (100, 112)),
            line("Total floor area 80 m²", (100, 124)),
        ],
        words,
    )

    assert tag.floor == 11.5


def test_a_size_far_from_every_name_is_nobodys(line, words):
    (tag,) = tags([line("Kitchen", (100, 100)), line("2.00 x 3.00 m", (100, 200))], words)

    assert (tag.printed, tag.floor) == (None, 0.0)


def test_a_tag_is_boxed_with_all_its_lines(line, words):
    (tag,) = tags([line("MASTER", (100, 100)), line("BEDROOM", (100, 112))], words)

    assert (tag.name, tag.box_px[1], tag.box_px[3]) == ("Master Bedroom", 95.0, 117.0)
