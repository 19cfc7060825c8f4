"""Every phrase is there in every language, and every sentence of the reckoning is recognised."""

import ast
from pathlib import Path
from string import Formatter

import pytest
from attrs import evolve

import estimator
from estimator.catalogue.loader import packaged_book
from estimator.documents.phrasebook import phrases
from estimator.documents.reader import Reader
from estimator.plan.doubt import Aspect, Doubt
from estimator.quantities import Units
from estimator.quantities.language import Language
from estimator.treatment import cautions as cautions_module
from estimator.treatment.cautions import Caution

FOREIGN = [Language.FR, Language.ES]
PACKAGE = Path(estimator.__file__).parent


def _flat(section, before=""):
    for key, value in section.items():
        name = f"{before}{key}"
        if isinstance(value, str):
            yield name, value
        else:
            yield from _flat(value, f"{name}.")


def _doubt_sentences():
    """Every sentence that the sources write for a doubt, with 3 for each figure or name in it."""
    for path in sorted(PACKAGE.rglob("*.py")):
        tree = ast.parse(path.read_text())
        for node in ast.walk(tree):
            said = None
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                if node.func.id == "Doubt":
                    said = next((word.value for word in node.keywords if word.arg == "says"), None)
                elif node.func.id in {"doubt", "_doubt"} and node.args:
                    said = node.args[0]
            elif isinstance(node, ast.Assign) and _is_named(node.targets[0], "says"):
                said = node.value if "Doubt(" in path.read_text() else None
            if isinstance(said, ast.JoinedStr | ast.Constant) and isinstance(
                text := _written(said), str
            ):
                yield f"{path.stem}:{node.lineno}", text


def _is_named(target, name):
    return isinstance(target, ast.Name) and target.id == name


def _written(node):
    if isinstance(node, ast.Constant):
        return node.value
    return "".join(
        part.value if isinstance(part, ast.Constant) else _sample(ast.unparse(part.value))
        for part in node.values
    )


SAMPLES = {
    "kind": "door",
    "opening.kind.value": "window",
    "kinds": "doors and windows",
    "unit": "metres",
    "likeliest.name": "millimetres",
    "scale.basis": "two points 3 m apart",
    "holds": "hold",
    "said": "does not say its unit",
    "_share_words(share)": "about 50% of what",
    "' and '.join(widths)": "doors 0.8 m and windows 1.2 m",
    "error": "5%",
}


def _sample(source):
    return SAMPLES.get(source, "3")


SENTENCES = sorted(set(_doubt_sentences()))


def braces(text):
    return [name for _, name, _, _ in Formatter().parse(text) if name]


@pytest.mark.parametrize("language", FOREIGN)
def test_every_phrase_is_there_with_the_same_braces(language):
    ours, theirs = dict(_flat(phrases(Language.EN))), dict(_flat(phrases(language)))

    assert list(theirs) == list(ours)
    for key, words in ours.items():
        kept = {brace for brace in braces(words) if not brace.startswith("_")}
        assert set(braces(theirs[key])) == kept, key
        assert theirs[key].strip(), key


def test_the_sources_hold_many_sentences_for_doubts():
    assert len(SENTENCES) > 40


@pytest.mark.parametrize("language", FOREIGN)
@pytest.mark.parametrize(("place", "words"), SENTENCES)
def test_every_doubt_of_the_sources_is_recognised(language, place, words):
    assert Reader(language=language).sentence(words), place


@pytest.mark.parametrize("language", FOREIGN)
def test_every_caution_has_its_words(language):
    known = [value for value in vars(cautions_module).values() if isinstance(value, Caution)]
    known += cautions_module._ALWAYS
    reader = Reader(language=language)

    assert len(known) > 20
    assert reader.say("doubts", "caution") not in {reader.caution(one) for one in known}


@pytest.mark.parametrize("language", FOREIGN)
def test_every_label_of_the_packaged_book_has_its_words(language):
    book, told = packaged_book(), phrases(language)["labels"]
    known = {
        words for section in phrases(Language.EN)["labels"].values() for words in section.values()
    }
    labels = [
        *(row.label for row in (*book.surfaces.uses, *book.surfaces.furniture, *book.zones)),
        *(touch.label for use in book.surfaces.uses for touch in use.touch_points),
    ]

    assert told
    assert [label for label in labels if label not in known] == []


@pytest.mark.parametrize(
    ("language", "english", "foreign"),
    [
        (
            Language.FR,
            "The scale was found from 2 of 3 printed figures (2 room sides, 1 room area); lengths "
            "may be off by 5%.",
            "L'échelle a été déterminée d'après 2 cotes inscrites sur 3 (2 côtés de pièce et "
            "1 surface de pièce)\u00a0; les longueurs peuvent s'écarter de 5\u00a0%.",
        ),
        (
            Language.ES,
            "The ceiling of Sala 1 was assumed to be 2.70 m high.",
            "Sala 1: altura de techo supuesta de 2,70 m.",
        ),
        (
            Language.FR,
            "Confirm on the label that its uses include 500 ppm for 10 min, 1000 ppm for 5 min.",
            "À confirmer sur l'étiquette\u00a0: les usages comprennent 500 ppm pendant 10 min et "
            "1000 ppm pendant 5 min.",
        ),
    ],
)
def test_what_changes_in_a_sentence_is_told_too(language, english, foreign):
    assert Reader(language=language).sentence(english) == foreign


def test_a_room_named_by_a_word_of_the_book_keeps_its_name():
    reader, said = Reader(language=Language.FR), "Office lies outdoors, where nothing is treated."

    assert reader.sentence(said, {"Office"}).startswith("Office\u00a0:")
    assert reader.sentence(said).startswith("Bureau\u00a0:")


@pytest.mark.parametrize("language", FOREIGN)
@pytest.mark.parametrize("aspect", list(Aspect))
def test_an_unknown_doubt_is_said_by_its_aspect_and_never_in_parts(language, aspect):
    odd = Doubt(aspect=aspect, says="The scale was found from a hunch; it is odd.", confidence=0.5)
    said = Reader(language=language).doubt(odd)

    assert said == phrases(language)["doubts"][aspect.value]
    assert Reader().doubt(odd) == odd.says


def test_an_unknown_caution_is_not_said_in_english():
    one = evolve(cautions_module._ALWAYS[0], text="Mind the step.")

    assert Reader(language=Language.ES).caution(one).startswith("Se aplica una precaución")
    assert Reader().caution(one) == "Mind the step."


@pytest.mark.parametrize("name", ["m" * 400, "1 " * 300, "and , and " * 60, "{room}", "3 m² 3 m²"])
def test_odd_names_are_kept(name):
    said = Reader(language=Language.FR).sentence(f"{name} lies outdoors, where nothing is treated.")

    assert said == f"{name}\u00a0: à l'extérieur, non traité."


def test_measures_are_spelled_as_their_readers_do():
    # Group and decimal signs by CLDR, common/main/{fr,es}.xml; U+202F parts groups in French.
    french, spanish = Reader(language=Language.FR), Reader(language=Language.ES, units=Units.US)

    assert french.area(1234.5) == "1\u202f234 m²"
    assert french.volume(0.0125) == "12,5 L"
    assert french.time(3900) == "1 h 5 min"
    assert french.share(0.125) == "12,5\u00a0%"
    assert spanish.volume(0.02) == "5,28 gal\u00a0EE.\u00a0UU."
    assert Reader(language=Language.FR, units=Units.US).area(100) == "1\u202f076 pi²"


def test_days_are_spelled_out():
    assert Reader().day("2026-03-02") == "2 March 2026"
    assert Reader(language=Language.FR).day("2026-03-02") == "2 mars 2026"
    assert Reader(language=Language.ES).day("soon") == "soon"


@pytest.mark.parametrize("language", FOREIGN)
@pytest.mark.parametrize(("place", "words"), SENTENCES)
def test_every_doubt_is_recognised_in_us_units_too(language, place, words):
    assert Reader(language=language, units=Units.US).sentence(words), place


MEASURED = (
    "The ceiling of Hall 3 m was assumed to be 2.44 m high.",
    "Kitchen and Hall 3 m overlapped by 1.5 m²; the shared floor was given to Hall 3 m.",
    "A door of Hall 3 m lay off its wall by 0.05 m and was moved.",
    "The scale was found from Kitchen, 3.2 × 4 m; lengths may be off by 5%.",
)


@pytest.mark.parametrize(
    ("language", "said"),
    [
        (
            Language.EN,
            (
                "The ceiling of Hall 3 m was assumed to be 8' 0\" high.",
                "Kitchen and Hall 3 m overlapped by 16.1 ft²; the shared floor was given to "
                "Hall 3 m.",
                'A door of Hall 3 m lay off its wall by 2" and was moved.',
                "The scale was found from Kitchen, 10' 6\" × 13' 1½\"; lengths may be off by 5%.",
            ),
        ),
        (
            Language.FR,
            (
                "8' 0\"",
                "16,1 pi²",
                '2"',
                "10' 6\" × 13' 1½\"",
            ),
        ),
        (
            Language.ES,
            (
                "8' 0\"",
                "16,1 ft²",
                '2"',
                "10' 6\" × 13' 1½\"",
            ),
        ),
    ],
)
def test_measures_inside_doubts_are_said_in_the_units_of_the_reader(language, said):
    """1 ft = 0.3048 m, exact (NIST Handbook 44, appendix C)."""
    reader = Reader(language=language, units=Units.US)
    for words, measure in zip(MEASURED, said, strict=True):
        told = reader.sentence(words, ["Kitchen", "Hall 3 m"])
        assert told is not None
        assert measure in told
        assert "Hall 3 m" in told or "Hall" not in words
        assert " m²" not in told
