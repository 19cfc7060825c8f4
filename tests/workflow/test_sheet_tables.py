"""The table of the work sheet on a phone, read back beside what was planned."""

import re

import pytest

from estimator.catalogue.loader import packaged_book
from estimator.documents.worksheet_html import worksheet_html
from estimator.errors import SourceError
from estimator.estimation.figures import figures_of
from estimator.quantities import Units
from estimator.workflow.quoting import estimate, usual_job
from estimator.workflow.sheet_tables import sheet_table
from estimator.workflow.sketching import sketch_plan

BOOK = packaged_book()
JOB = usual_job(BOOK)
PLAN = sketch_plan("Kitchen 4 x 5 m, 2 bedrooms 3 x 4 m, hall 2 x 5 m", book=BOOK)
QUOTE = estimate(PLAN, book=BOOK, job=JOB, date="2026-11-25")
FIGURES = figures_of(PLAN, QUOTE, BOOK, JOB)
ROOMS = {room.name: room.room for room in FIGURES.rooms}


SHEET = worksheet_html(PLAN, QUOTE, Units.METRIC)
_FIELDS = re.compile(r'data-name="(?P<card>[^"]*)"|(?P<end></section>)|data-says="(?P<says>[^"]*)"')


def saved(written):
    """The table that the sheet of the quote saves, with some fields written into."""
    rows, card = ["what,field,value"], "visit"
    for found in _FIELDS.finditer(SHEET):
        if found["says"]:
            rows.append(f'"{card}","{found["says"]}","{written.get((card, found["says"]), "")}"')
        else:
            card = found["card"] or "visit"
    return ("\ufeff" + "\r\n".join(rows)).encode()


def stop(name):
    """What the card of a room is called on the sheet."""
    cards = re.findall(r'data-stop data-name="([^"]*)"', SHEET)
    return next(card for card in cards if card.split(" ", 1)[1] == name)


def test_what_the_sheet_saves_is_read_back_room_by_room():
    written = {
        (stop("Kitchen"), "really sprayed"): "3.5 L",
        (stop("Kitchen"), "minutes it took"): "12",
        (stop("Kitchen"), "remarks"): "'=greasy hood",
        (stop("Hall"), "really sprayed"): "1,5",
        ("visit", "arrived at; times of day follow from it"): "08:10",
        ("visit", "left at"): "09:55",
        ("visit", "people"): "3",
    }
    told = sheet_table(saved(written), FIGURES, Units.METRIC)
    kitchen, hall = told.rooms[ROOMS["Kitchen"]], told.rooms[ROOMS["Hall"]]
    assert (kitchen.volume, kitchen.minutes, kitchen.note) == (
        pytest.approx(3.5),
        12,
        "=greasy hood",
    )
    assert (hall.volume, hall.minutes) == (pytest.approx(1.5), None)
    assert (told.crew, told.minutes, told.unread) == (3, 105, ())


def test_a_sheet_that_nobody_wrote_on_says_nothing():
    told = sheet_table(saved({}), FIGURES, Units.METRIC)
    assert all(one.nothing for one in told.rooms.values())
    assert (told.crew, told.minutes, told.note) == (None, None, "")


def test_what_cannot_be_read_is_named():
    written = {(stop("Kitchen"), "really sprayed"): "half a bucket"}
    told = sheet_table(saved(written), FIGURES, Units.METRIC)
    assert told.unread == ("half a bucket in Kitchen",)
    assert told.rooms[ROOMS["Kitchen"]].volume is None


def test_a_visit_over_midnight_has_its_minutes():
    times = {
        ("visit", "arrived at; times of day follow from it"): "23:30",
        ("visit", "left at"): "01:00",
    }
    assert sheet_table(saved(times), FIGURES, Units.METRIC).minutes == 90


@pytest.mark.parametrize("content", [b"", b"\xff\xfe", b"room,litres\nKitchen,3\n", b"\x89PNG\r\n"])
def test_another_file_is_refused_in_one_sentence(content):
    with pytest.raises(SourceError, match="the table: it was not saved by a work sheet; save"):
        sheet_table(content, FIGURES, Units.METRIC)
