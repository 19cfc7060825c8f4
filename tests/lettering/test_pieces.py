from estimator.lettering.pieces import together


def texts(lines):
    return sorted(line.text for line in together(lines))


def test_pieces_that_only_together_are_a_size_are_joined(line):
    pieces = [line("4,25", (20, 50)), line("x 3,25", (56, 51))]

    (joined,) = together(pieces)

    assert joined.text == "4,25 x 3,25"
    assert joined.box_px == (8.0, 45.0, 74.0, 56.0)


def test_sizes_names_and_pieces_far_apart_stay_as_they_are(line):
    for first, second in (("3.00 x 4.00", "x 3,25"), ("Kitchen", "3,25"), ("4,25", "3,25")):
        lines = [line(first, (40, 50)), line(second, (110, 50))]
        assert texts(lines) == sorted([first, second])

    assert len(together([line("4,25", (20, 50)), line("x 3,25", (120, 50))])) == 2
    assert len(together([line("4,25", (20, 50)), line("x 3,25", (56, 70))])) == 2
