import re
import tomllib
from importlib.resources import files

import pytest

from estimator.lettering.spelling import unaccented
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
        ("Br 2", "bedroom"),
        ("MBR", "bedroom"),
        ("Kit/Din", "kitchen"),
        ("Ens", "bathroom"),
        ("Ldry", "laundry"),
        ("Cup'd", "closet"),
        ("WIR", "closet"),
        ("Séj.", "living_room"),
        ("S.D.E.", "bathroom"),
        ("Cuis.", "kitchen"),
        ("Ch. 1", "bedroom"),
        ("Dgt", "corridor"),
        ("Buand.", "laundry"),
        ("Salle de douche", "bathroom"),
        ("Dorm. 2", "bedroom"),
        ("Hab. 1", "bedroom"),
        ("BANO 2", "bathroom"),
        ("Salón-comedor", "living_room"),
        ("Tendedero", "laundry"),
        ("Distr.", "corridor"),
        ("Schlafz.", "bedroom"),
        ("KUECHE", "kitchen"),
        ("Wohnküche", "living_room"),
        ("Dusche/WC", "bathroom"),
        ("Abstellr.", "closet"),
        ("HWR", "utility_room"),
        ("Diele", "hall"),
        ("Zimmer 3", "room"),
    ],
)
def test_names_in_four_languages_say_what_a_room_is_for(words, name, use):
    assert words.use_of(name) == use


OUTDOORS = (
    "Balcony,Roof Terrace,DECK,Patio,Porch,Garden,Balcon,Terrasse,Jardin,Balcón,Terraza,Jardín"
)
OUTDOORS += ",Porche,Balkon,Dachterrasse,Loggia,Garten"


@pytest.mark.parametrize("name", OUTDOORS.split(","))
def test_what_lies_outdoors_is_known_in_four_languages(words, name):
    assert words.use_of(name) == "balcony"


@pytest.mark.parametrize(
    "name", ["Garden Room", "Wintergarten", "Jardin d'hiver", "Enclosed porch"]
)
def test_what_only_sounds_like_outdoors_is_indoors(words, name):
    assert words.use_of(name) in {"living_room", "hall"}


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


def spelled(word):
    return " ".join(re.findall(r"[^\W\d_']+", unaccented(word)))


def test_every_use_in_the_file_is_in_the_book_and_no_word_has_two():
    text = files("estimator.lettering").joinpath("room_words.toml").read_text("utf-8")
    languages = tomllib.loads(text)
    book = {use.slug for use in standard_book().surfaces.uses}
    uses = {}
    for language, rows in languages.items():
        assert set(rows) <= book
        for slug, entries in rows.items() if language != "at_home" else ():
            for word in entries:
                assert uses.setdefault(spelled(word), slug) == slug, word
    assert {"en", "fr", "es", "de"} <= set(languages)
