from estimator.lettering.labels import RoomSize, labels_of
from estimator.lettering.lengths import Way
from estimator.lettering.pairs import gap_px, settled


def sizes_of(lines, words):
    return [label for label in settled(labels_of(lines, words)) if isinstance(label, RoomSize)]


def test_a_size_in_metres_and_feet_is_one(line, words):
    (both,) = sizes_of([line("171×156", (100, 100)), line("5.21 × 4.73", (100, 112))], words)

    assert str(both.sizes.likeliest) == "5.21 × 4.73 m"
    assert both.line.box_px[1] == 95
    assert both.line.box_px[3] == 117


def test_sizes_of_two_rooms_stay_two(line, words):
    found = sizes_of([line("12'6 x 10'0", (0, 0)), line("3.81 × 3.05 m", (400, 0))], words)

    assert len(found) == 2


def test_bare_numbers_are_read_as_the_clear_sizes_of_the_sheet_are(line, words):
    feet = sizes_of([line("126 × 100", (0, 0)), line("9'3\" x 8'0\"", (400, 0))], words)
    centimetres = sizes_of([line("345 × 420", (0, 0)), line("345 × 420 cm", (400, 0))], words)

    assert {label.sizes.likeliest.way for label in feet} == {Way.FEET}
    assert {label.sizes.likeliest.way for label in centimetres} == {Way.CENTIMETRES}


def test_boxes_that_overlap_have_no_gap(line):
    assert gap_px(line("Hall", (0, 0)), line("Hall", (5, 3))) == 0
    assert gap_px(line("Hall", (0, 0)), line("Hall", (0, 25))) == 15
