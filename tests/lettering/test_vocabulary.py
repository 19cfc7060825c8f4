import tomllib
from importlib.resources import files

import pytest

from estimator.workflow.measuring import standard_book


@pytest.mark.parametrize(
    ("name", "use"),
    [
        ("Kitchen", "kitchen"),
        ("MASTER BEDROOM", "bedroom"),
        ("W.C.", "toilet"),
        ("En-suite", "bathroom"),
        ("Cuisine", "kitchen"),
        ("Chambre 2", "bedroom"),
        ("Salle à manger", "dining_room"),
        ("Séjour", "living_room"),
        ("SDB", "bathroom"),
        ("Salle d'attente", "waiting_room"),
        ("Dormitorio principal", "bedroom"),
        ("Baño", "bathroom"),
        ("Cocina", "kitchen"),
        ("Pasillo", "corridor"),
        ("Sala de reuniones", "meeting_room"),
        ("Schlafzimmer", "bedroom"),
        ("Küche", "kitchen"),
        ("Gäste-WC", "toilet"),
        ("Flur", "corridor"),
        ("Bad / WC", "bathroom"),
        ("Living / Dining", "living_room"),
        ("Store", "storage"),
    ],
)
def test_names_in_four_languages_say_what_a_room_is_for(words, name, use):
    assert words.use_of(name) == use


def test_a_reception_is_a_living_room_at_home_only(words):
    assert words.use_of("Reception") == "reception"
    assert words.use_of("Reception", at_home=True) == "living_room"


@pytest.mark.parametrize("name", ["Larkfield", "Sheet", "Revision", "X"])
def test_other_words_name_no_room(words, name):
    assert words.use_of(name) is None


@pytest.mark.parametrize(
    ("seen", "meant"),
    [
        ("Kitchn", "Kitchen"),
        ("RECEPFION ROOM", "RECEPTION ROOM"),
        ("Cordor", "Corridor"),
        ("Bathriioom", "Bathroom"),
        ("Children's WC", "Children's WC"),
        ("Bedrooms", "Bedrooms"),
        ("Larkfield", "Larkfield"),
    ],
)
def test_a_word_nearly_known_is_spelled_like_it(words, seen, meant):
    assert words.mended(seen) == meant


def test_every_use_in_the_file_is_in_the_book_and_no_word_has_two():
    text = files("estimator.lettering").joinpath("room_words.toml").read_text("utf-8")
    languages = tomllib.loads(text)
    book = {use.slug for use in standard_book().surfaces.uses}
    uses = {}
    for language, rows in languages.items():
        assert set(rows) <= book
        for slug, entries in rows.items() if language != "at_home" else ():
            for word in entries:
                assert uses.setdefault(word, slug) == slug, word
    assert {"en", "fr", "es", "de"} <= set(languages)
