import pytest

from estimator.lettering.spelling import flat, unaccented, with_digits


@pytest.mark.parametrize(
    ("seen", "meant"),
    [
        ("12′6″ × 10′0″", "12'6\" x 10'0\""),
        ("12’-6”  x   10‘", "12'-6\" x 10'"),
        ("3.45 ✕ 4.20", "3.45 x 4.20"),
        ("（2.9m）", "(2.9m)"),
        ("CAFE，LARKFIELD", "CAFE,LARKFIELD"),
    ],
)
def test_typographic_signs_become_plain_ones(seen, meant):
    assert flat(seen) == meant


@pytest.mark.parametrize(
    ("seen", "meant"),
    [
        ("1O'6\"", "10'6\""),
        ("l2'O\"", "12'0\""),
        ("3.4O m", "3.40 m"),
        ("I.78 m", "I.78 m".replace("I", "1")),
        ("13°6", "13'6"),
        ("16'2°", "16'2\""),
    ],
)
def test_letters_that_look_like_digits_are_digits_in_a_number(seen, meant):
    assert with_digits(seen) == meant


@pytest.mark.parametrize("words", ["Bedroom", "Oil store", "Hall IO", "Living / Dining", "Lobby"])
def test_words_keep_their_letters(words):
    assert with_digits(words) == words


def test_names_are_compared_without_accents_or_capitals():
    assert unaccented("KÜCHE") == unaccented("kuche")
    assert unaccented("Salle à Manger") == "salle a manger"
    assert unaccented("Maßstab") == "massstab"
