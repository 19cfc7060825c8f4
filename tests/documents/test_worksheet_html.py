"""The work sheet for a phone, read back."""

import re
from html import unescape
from html.parser import HTMLParser

import pytest
from attrs import evolve

from estimator.documents.stops import stops, tanks
from estimator.documents.worksheet_html import worksheet_html
from estimator.plan.storey import Storey
from estimator.quantities import Units
from estimator.treatment.cautions import Decision
from estimator.visit.emergency import EMERGENCIES
from estimator.visit.precautions import Precaution
from estimator.workflow.quoting import estimate
from estimator.workflow.sketching import sketch_plan

ALONE = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source"}


class Page(HTMLParser):
    """Names of fields and all words; whatever is not closed is noticed."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.fields: list[str] = []
        self.words: list[str] = []
        self.loaded: list[str] = []
        self.open: list[str] = []
        self.scripts = 0
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        given = dict(attrs)
        self.scripts += tag == "script"
        self.loaded += [given[name] or "" for name in ("src", "href") if name in given]
        if "name" in given and tag in ("input", "textarea"):
            self.fields.append(given["name"])
        if tag not in ALONE:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        pass

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        if self.open and self.open[-1] not in ("style", "script"):
            self.words.append(data)

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.words).split())


@pytest.fixture
def page(plan, quote):
    return Page(worksheet_html(plan, quote, Units.METRIC))


def test_nothing_is_loaded_from_anywhere(page, plan, quote):
    assert all(one.startswith("#") for one in page.loaded)
    assert "default-src 'none'" in worksheet_html(plan, quote, Units.METRIC)


def test_every_stop_and_every_mix_has_boxes(page, quote):
    for number in range(1, len(stops(quote)) + 1):
        for box in ("sprayed", "done", "used", "time", "note"):
            assert f"stop-{number}-{box}" in page.fields
    assert {f"tank-{tank.number}" for tank in tanks(quote)} < set(page.fields)
    assert len(page.fields) == len(set(page.fields))


def test_what_paper_says_stands_on_the_phone_too(page, quote):
    assert "Do not spray before this is confirmed." in page.text
    assert quote.solution.unconfirmed[0] in page.text
    for said in ("Wear disposable gloves", "Staff kitchen", "1.73 L on", "Wiped and rinsed: Table"):
        assert said in page.text
    assert all(one.do in page.text for one in EMERGENCIES)


def test_what_to_mask_is_ticked_room_by_room(plan, quote):
    one = Precaution(
        slug="fish", mark="A", says="aquariums: cover", source="common practice", as_of="2026"
    )
    timetable = evolve(quote.timetable, precautions=((one, ("waiting",)),))
    page = Page(worksheet_html(plan, evolve(quote, timetable=timetable), Units.METRIC))

    (box,) = [field for field in page.fields if field.endswith("-fish")]
    number = int(re.findall(r"\d+", box)[0])
    assert stops(quote)[number - 1].room == "waiting"
    assert "Aquariums: cover" in page.text


def precaution(slug: str, says: str) -> Precaution:
    return Precaution(slug=slug, mark=slug[0], says=says, source="invented", as_of="2026")


ALL_BUT_ONE = ("kitchen", "waiting", "store", "hall", "exam")
CALLED_FOR = (
    (precaution("alarms", "alarms: isolate & log"), (*ALL_BUT_ONE, "toilet")),
    (precaution("screens", "screens: cover"), ALL_BUT_ONE),
    (precaution("mirrors", "mirrors keep dry"), ("toilet", *ALL_BUT_ONE)),
    (precaution("food", "food: take out"), ("kitchen",)),
)


@pytest.fixture
def cautious(quote):
    """The quote with precautions for every room, all rooms but one, and a single one."""
    return evolve(quote, timetable=evolve(quote.timetable, precautions=CALLED_FOR))


def cards(text: str) -> list[Page]:
    """The cards of the stops, in their order."""
    return [
        Page(card)
        for card in re.findall(r'<section class="card" data-stop.*?</section>', text, re.S)
    ]


def everywhere(text: str) -> str:
    """What is said of every room, which stands before the first map."""
    found = re.search(r'id="every-room".*?(?=<h2 id="way">)', text, re.S)
    return Page(f"<h2 {found[0]}").text if found else ""


def check_that_no_caution_is_lost(plan, quote):
    """Every caution stands on the page, and each precaution at every stop that calls for it."""
    text = worksheet_html(plan, quote, Units.METRIC)
    page, shared = Page(text), everywhere(text)
    for stop, card in zip(stops(quote), cards(text), strict=True):
        for one, rooms in quote.timetable.precautions:
            says = one.says[:1].upper() + one.says[1:]
            assert (stop.room in rooms) == (says in card.text or says in shared)
            if says in shared:
                assert one.says.split(":")[0] in card.text
    for said in (
        *quote.solution.unconfirmed,
        *quote.solution.warnings,
        *quote.timetable.findings,
        *(one.text for one in quote.cautions if one.where is not Decision.QUOTE),
        *(f"{one.happened}: {one.do}" for one in EMERGENCIES),
    ):
        assert said in page.text


def test_no_caution_is_lost(plan, cautious):
    check_that_no_caution_is_lost(plan, cautious)


def test_no_caution_of_the_packaged_book_is_lost():
    plan = sketch_plan("Kitchen 4 x 5 m, classroom 6 x 8 m, 2 offices 3 x 4 m, hall 2 x 9 m")
    quote = estimate(plan, date="2026-11-25")
    slugs = {one.slug for one, _ in quote.timetable.precautions}

    assert {"detectors", "ventilation", "electronics", "food", "toys"} <= slugs
    check_that_no_caution_is_lost(plan, quote)


def test_what_holds_for_every_room_is_said_once_and_ticked_in_each(plan, cautious):
    text = worksheet_html(plan, cautious, Units.METRIC)
    whole = Page(text).text
    assert whole.count("Alarms: isolate & log") == whole.count("Mirrors keep dry") == 1
    for number, card in enumerate(cards(text), 1):
        assert f"stop-{number}-as-everywhere" in card.fields
        assert "As in every room: alarms; mirrors keep dry" in card.text
    assert whole.count("Screens: cover") == len(ALL_BUT_ONE)
    assert whole.count("Food: take out") == 1
    assert "Food" not in everywhere(text)


def test_a_single_stop_says_its_precautions_itself(plan, cautious):
    dose = cautious.solution.doses[0]
    alone = evolve(cautious, solution=evolve(cautious.solution, doses=(dose,)))
    text = worksheet_html(plan, alone, Units.METRIC)
    (card,) = cards(text)
    assert "Alarms: isolate & log" in card.text
    assert "every room" not in Page(text).text


def test_each_storey_has_its_map(plan, quote):
    upper = tuple(evolve(room, storey=1) if room.id == "exam" else room for room in plan.rooms)
    measured = tuple(
        evolve(room, storey=1) if room.room == "exam" else room for room in quote.schedule.rooms
    )
    two = evolve(plan, rooms=upper, storeys=(*plan.storeys, Storey(number=1, name="First floor")))
    text = worksheet_html(
        two, evolve(quote, schedule=evolve(quote.schedule, rooms=measured)), Units.US
    )

    assert text.count("<svg") == 2
    assert "First floor" in Page(text).text


@pytest.mark.parametrize(
    "name", ["</script><script>alert(1)</script>", '"><img src=x>', "厨房", ""]
)
def test_a_name_stays_a_name(plan, quote, name):
    measured = tuple(evolve(room, name=name) for room in quote.schedule.rooms)
    named = evolve(quote, title=name, schedule=evolve(quote.schedule, rooms=measured))
    page = Page(worksheet_html(plan, named, Units.METRIC))

    assert page.scripts == 1
    assert not page.open
    assert all(one.startswith("#") for one in page.loaded)


def test_the_same_inputs_give_the_same_page(plan, quote):
    one, other = (worksheet_html(plan, quote, Units.METRIC) for _ in range(2))

    assert one == other
    assert unescape(one).count("☐") == 0


def test_it_says_where_the_table_that_it_saves_is_read(plan, quote):
    text = worksheet_html(plan, quote, Units.METRIC)
    assert "read on the page Outcomes" in text
    assert "Take it from the work sheet on the phone" in text
