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
from estimator.visit.emergency import EMERGENCIES
from estimator.visit.precautions import Precaution

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
