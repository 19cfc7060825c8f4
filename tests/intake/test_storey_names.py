import pytest

from estimator.intake.storey_names import storey_name

# From memory, as plans in these languages are usually lettered (common practice).
CAPTIONS = {
    "GROUND FLOOR": ("Ground floor", 0),
    "1ST FLOOR": ("1st floor", 1),
    "1STFLOOR 613 sq.ft. approx": ("1st floor", 1),
    "First Floor Approx. 45.2 sq m (486 sq ft)": ("First floor", 1),
    "Lower Ground Floor": ("Lower ground floor", -1),
    "house_level2": ("Level 2", 2),
    "MAIN FLOOR": ("Main floor", 0),
    "Attic": ("Attic", 90),
    "REZ-DE-CHAUSSEE": ("Rez-de-chaussée", 0),
    "Plan du premier étage": ("Premier étage", 1),
    "2e étage": ("2e étage", 2),
    "Sous sol": ("Sous-sol", -1),
    "Erdgeschoss M 1:100": ("Erdgeschoss", 0),
    "EG": ("EG", 0),
    "2. OG": ("2. OG", 2),
    "1. Obergeschoß": ("1. Obergeschoss", 1),
    "Dachgeschoss": ("Dachgeschoss", 90),
    "Planta Baja": ("Planta baja", 0),
    "PLANTA 1": ("Planta 1", 1),
    "Sótano": ("Sótano", -1),
}


@pytest.mark.parametrize("text", CAPTIONS)
def test_captions_of_several_languages_name_a_storey(text):
    found = storey_name(text)
    assert (found.text, found.level) == CAPTIONS[text]


@pytest.mark.parametrize(
    "text",
    [
        "",
        "Kitchen",
        "FLOOR PLAN",
        "Total floor area 613 sq ft",
        "GROUND FLOOR 1ST FLOOR",
        "Excavation",
        "Stairs to first floor",
        "Treppe zum 1. OG",
        "Every attempt has been made to draw the plan of the ground floor right",
        "Wide view of the town in spring at dawn EG",
    ],
)
def test_other_lines_name_none(text):
    assert storey_name(text) is None
