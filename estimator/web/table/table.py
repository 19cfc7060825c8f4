"""The drawing table on the screen: shown to the browser, and its strokes taken back."""

import json
from functools import cache, lru_cache
from typing import Any

import streamlit as st
from attrs import define
from streamlit import runtime

from estimator.errors import EstimatorError
from estimator.plan.storey import Storey
from estimator.surfaces.book import SurfaceBook
from estimator.web.state import Session
from estimator.web.table.commands import corrected
from estimator.web.table.heard import Command, Heard
from estimator.web.table.said import Said
from estimator.web.table.showing import book_data, storey_data
from estimator.web.wording import plain
from estimator.workflow.backdrops import Backdrop, backdrop

KEY = "drawing-table"


@define(kw_only=True)
class Strokes(Heard):
    """What was heard of the table of one browser tab.

    Parameters
    ----------
    notice
        What is to be said about the last command, and which one that was.
    """

    notice: dict[str, Any] | None = None


def drawing_table(session: Session, storey: Storey) -> None:
    """Show a storey on the drawing table, and take what is drawn on it."""
    strokes = _strokes()
    picture = _picture(session, storey)
    base = session.once(
        ("drawing table", storey.number, session.units),
        lambda: storey_data(
            session.work.plan, storey.number, session.work.book.surfaces, session.units
        ),
    )
    data = base | {
        "doc": f"{session.work.document}/{storey.number}",
        "picture": picture
        and {
            "url": _media(picture.jpeg, "image/jpeg", "picture"),
            "width": picture.width_px,
            "height": picture.height_px,
        },
        "about": _media(_about(session.work.book.surfaces, picture), "application/json", "about"),
        "selected": list(session.chosen),
        "notice": strokes.notice,
        "done": strokes.done,
    }
    with st.container(key="drawing-table-place"):
        _component()(key=KEY, data=data, on_edits_change=lambda: _take(session))


def take(session: Session, strokes: Strokes, sent: object) -> None:
    """Carry out the commands that a table sent and that were not heard before."""
    for client, number, command in strokes.news(sent):
        says = _carried_out(session, command)
        strokes.notice = (
            says
            and {
                "key": f"{client}-{number}",
                "client": client,
                "seq": number,
                "says": says,
            }
        ) or None


def _carried_out(session: Session, command: Command) -> str:
    """Carry out one command; return what is to be said about it, or nothing."""
    if command.get("do") in ("undo", "redo"):
        session.undo() if command["do"] == "undo" else session.redo()
        return ""
    if command.get("doc") != f"{session.work.document}/{command.get('storey')}":
        if command.get("do") == "choose":
            return ""  # the browser lets go of what it had chosen
        return "Another plan was opened meanwhile; this stroke belonged to the one before."
    if command.get("do") == "choose":
        rooms = command.get("rooms")
        known = {room.id for room in session.work.plan.rooms}
        session.choose([room for room in rooms if room in known] if isinstance(rooms, list) else [])
        return ""
    return _corrected(session, command)


def _corrected(session: Session, command: Command) -> str:
    said = Said(command=command, units=session.units, book=session.work.book.surfaces)
    before = session.work.plan
    if not session.correct(lambda plan: corrected(plan, said), anew=False):
        says, session.problem = session.problem, ""
        return says
    after = session.work.plan
    known = [room.id for room in before.rooms]
    if known != [room.id for room in after.rooms]:
        session.edition += 1  # the table of rooms has other rows
    if new := [room.id for room in after.rooms if room.id not in known]:
        session.choose(new[-1:])
    elif command.get("do") == "join":
        session.choose([room.id for room in after.rooms if room.id in command["rooms"]])
    return " ".join(doubt.says for doubt in after.doubts if doubt not in before.doubts)


def _take(session: Session) -> None:
    take(session, _strokes(), st.session_state[KEY].get("edits"))


def _strokes() -> Strokes:
    found = st.session_state.setdefault("drawing-table-strokes", Strokes())
    assert isinstance(found, Strokes)
    return found


@cache
def _component() -> Any:
    """Declare the component; its script lies where the package's pyproject.toml says."""
    return st.components.v2.component("estimator.drawing_table", js="table.js")


def _picture(session: Session, storey: Storey) -> Backdrop | None:
    try:
        return backdrop(storey, session.work.pages)
    except EstimatorError as error:
        st.error(plain(str(error)))
        return None


@lru_cache(maxsize=8)
def _about(book: SurfaceBook, picture: Backdrop | None) -> bytes:
    return json.dumps(
        book_data(book, picture.ink if picture else None), separators=(",", ":")
    ).encode()


def _media(content: bytes, kind: str, what: str) -> str:
    """Return the address under which the browser finds some content."""
    if not runtime.exists():
        return ""
    url = runtime.get_instance().media_file_mgr.add(content, kind, f"{KEY}-{what}")
    base = str(st.get_option("server.baseUrlPath") or "").strip("/")
    return f"/{base}{url}" if base else url
