from estimator.lettering.words import lines_of_words
from estimator.reading.picture import Word


def word(text, left, top, width, height=10):
    return Word(text=text, left_px=left, top_px=top, right_px=left + width, bottom_px=top + height)


def test_words_side_by_side_make_a_line():
    found = lines_of_words(
        [word("Living", 0, 0, 40), word("/", 44, 0, 4), word("Dining", 52, 0, 40)]
    )

    assert [line.text for line in found] == ["Living / Dining"]
    assert found[0].box_px == (0, 0, 92, 10)


def test_words_far_apart_or_on_other_lines_stay_apart():
    found = lines_of_words(
        [word("Hall", 0, 0, 30), word("Store", 90, 0, 30), word("WC", 90, 14, 15)]
    )

    assert [line.text for line in found] == ["Hall", "Store", "WC"]


def test_a_line_that_runs_up_the_page_keeps_its_unit():
    found = lines_of_words([word("5.10", 0, 20, 10, 30), word("m", 0, 8, 10, 8)])

    assert [(line.text, line.is_vertical) for line in found] == [("5.10 m", True)]
    assert found[0].letter_px == 10
