import hashlib
import json
import re
import tomllib
from pathlib import Path

import pytest
from attrs import evolve

import estimator
from estimator.plan.edits import removed
from estimator.quantities import Units
from estimator.web.state import Session, Work
from estimator.web.table.showing import book_data, storey_data
from estimator.web.table.table import Strokes, take
from estimator.workflow.measuring import standard_book
from estimator.workflow.quoting import usual_job
from estimator.workflow.samples import samples
from estimator.workflow.sketching import sketch_plan

BOOK = standard_book()
PACKAGE = Path(estimator.__file__).parent
TABLE = PACKAGE / "web" / "table"


@pytest.fixture
def session():
    plan = sketch_plan("Hall 3 x 4 m, Office 2 x 4 m")
    return Session(work=Work(plan=plan, book=BOOK, job=usual_job(BOOK)), units=Units.METRIC)


def sent(*commands, client="one", first=1, doc="0/0"):
    return {
        "client": client,
        "edits": [
            {"seq": at, "doc": doc, "storey": 0} | command
            for at, command in enumerate(commands, first)
        ],
    }


WALL = {"do": "move-wall", "room": "room-1", "wall": [[3, 0], [3, 4]], "by": [0.5, 0]}
NEW = {"do": "add-room", "corners": [[9, 0], [11, 0], [11, 2], [9, 2]]}


def areas(session):
    return [round(room.outline.area, 6) for room in session.work.plan.rooms]


def test_each_stroke_is_one_step_that_can_be_undone(session):
    take(session, Strokes(), sent(WALL, NEW))

    assert areas(session) == [14, 6, 4]
    session.undo()
    assert areas(session) == [14, 6]
    session.undo()
    assert areas(session) == [12, 8]


def test_what_is_sent_again_is_not_done_again(session):
    strokes = Strokes()
    take(session, strokes, sent(NEW))
    take(session, strokes, sent(NEW, WALL))

    assert areas(session) == [14, 6, 4]
    assert strokes.done == {"one": 2}


def test_a_table_that_came_anew_onto_the_page_counts_anew(session):
    strokes = Strokes()
    take(session, strokes, sent(NEW))
    take(session, strokes, sent(WALL, client="two"))

    assert areas(session) == [14, 6, 4]


def test_a_stroke_for_another_plan_is_not_done_to_this_one(session):
    strokes = Strokes()
    session.open(lambda work: evolve(work, plan=sketch_plan("Hall 3 x 4 m, Office 2 x 4 m")))
    take(session, strokes, sent(WALL))

    assert areas(session) == [12, 8]
    assert "Another plan was opened meanwhile" in strokes.notice["says"]


def test_what_is_refused_is_said_where_it_was_drawn_and_all_else_is_kept(session):
    strokes = Strokes()
    before = session.work
    take(session, strokes, sent(WALL | {"by": [-9, 0]}))

    assert session.work is before
    assert session.problem == ""
    assert strokes.notice["seq"] == 1
    assert strokes.notice["says"].endswith(".")


def test_what_is_mended_is_said_too(session):
    strokes = Strokes()
    take(session, strokes, sent(NEW | {"corners": [[9, 0], [11, 2], [11, 0], [9, 4]]}))

    assert "its largest part was kept" in strokes.notice["says"]


def test_a_new_room_is_chosen_and_a_removed_one_is_no_longer(session):
    strokes = Strokes()
    take(session, strokes, sent(NEW))
    new = session.work.plan.rooms[-1].id
    assert session.chosen == (new,)
    session.correct(lambda plan: removed(plan, new))
    assert session.chosen == ()


def test_choosing_is_no_step(session):
    take(session, Strokes(), sent({"do": "choose", "rooms": ["room-2", "nowhere"]}))

    assert session.chosen == ("room-2",)
    assert not session.can_undo


def test_undo_and_redo_come_from_the_table_too(session):
    strokes = Strokes()
    take(session, strokes, sent(WALL, {"do": "undo"}))
    assert areas(session) == [12, 8]
    take(session, strokes, sent({"do": "redo"}, first=3))
    assert areas(session) == [14, 6]


@pytest.mark.parametrize(
    "nonsense", [None, 7, "edits", {"edits": "all"}, {"edits": [None, 7, {}, {"seq": "x"}]}]
)
def test_nonsense_from_the_browser_is_ignored(session, nonsense):
    before = session.work
    take(session, Strokes(), nonsense)
    assert session.work is before


@pytest.mark.parametrize("sample", samples(), ids=lambda sample: sample.picture.stem)
def test_every_room_of_every_sample_is_shown_on_its_picture(sample):
    plan = sample.truth()
    data = storey_data(plan, 0, BOOK.surfaces, Units.METRIC)
    _, _, right, bottom = data["extent"]

    assert len(data["rooms"]) == len([room for room in plan.rooms if room.storey == 0])
    places = [place for room in data["rooms"] for ring in room["rings"] for place in ring]
    assert all(-1 <= x <= right + 1 and -1 <= y <= bottom + 1 for x, y in places)
    assert data["perUnit"] == pytest.approx(plan.scale.metres_per_px, rel=0.05)
    json.dumps(data, allow_nan=False)


def test_the_book_is_told_with_words_to_search_it_by():
    data = book_data(BOOK.surfaces, None)

    assert any("desk" in kind["words"] for kind in data["furniture"])
    assert [use["label"] for use in data["uses"]] == sorted(use["label"] for use in data["uses"])


def test_the_scripts_were_built_from_the_sources_as_they_stand():
    frontend = TABLE / "frontend"
    sources = [
        "build.mjs",
        "package-lock.json",
        *(
            path.relative_to(frontend).as_posix()
            for path in (frontend / "src").rglob("*")
            if path.suffix in (".js", ".css")
        ),
    ]
    digest = hashlib.sha256()
    for source in sorted(sources):
        digest.update(f"{source}\n".encode() + (frontend / source).read_bytes())
    for script in ("table.js", "line.js"):
        head = (TABLE / "assets" / script).read_text("utf-8")[:200]
        assert re.match(r"/\* sources (\w+) \*/", head).group(1) == digest.hexdigest(), (
            "build it anew: npm ci && npm run build, in estimator/web/table/frontend"
        )


def test_the_package_tells_streamlit_where_the_scripts_lie_and_no_host_is_named():
    told = tomllib.loads((PACKAGE / "pyproject.toml").read_text("utf-8"))
    components = told["tool"]["streamlit"]["component"]["components"]
    lock = json.loads((TABLE / "frontend" / "package-lock.json").read_text("utf-8"))

    assert [component["name"] for component in components] == ["drawing_table", "sketch_line"]
    for component, script in zip(components, ("table.js", "line.js"), strict=True):
        assert (PACKAGE / component["asset_dir"] / script).is_file()
    assert not any("resolved" in package for package in lock["packages"].values())
