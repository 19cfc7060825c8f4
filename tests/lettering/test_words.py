import numpy as np
import pytest

from estimator.lettering import words as module
from estimator.lettering.words import lines_of, lines_of_words
from estimator.plan.geometry import rectangle
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.reading.picture import Picture, Word


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


@pytest.mark.parametrize(
    ("rooms", "texts", "by_the_file"),
    [(2, "ab", True), (5, "abc", True), (5, "ab", False), (2, "a", False)],
)
def test_text_of_the_file_letters_a_plan_when_enough_of_it_stands_in_rooms(
    monkeypatch, rooms, texts, by_the_file
):
    monkeypatch.setattr(module, "recognised", lambda _pixels: ())
    outlines = [rectangle(90, 90, left=100 * at) for at in range(rooms)]
    plan = Plan(
        rooms=tuple(Room(id=f"{at}", name="", outline_px=one) for at, one in enumerate(outlines))
    )
    words = tuple(word(text, 100 * at + 20, 40, 30) for at, text in enumerate(texts))
    picture = Picture(pixels=np.zeros((100, 500, 3), np.uint8), words=words)
    assert bool(lines_of(picture, plan)) is by_the_file
