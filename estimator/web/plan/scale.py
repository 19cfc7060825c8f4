"""Setting the scale, by whatever is known about the site or the drawing."""

from collections.abc import Callable, Mapping, Sequence
from enum import StrEnum

import streamlit as st

from estimator.errors import PlanError
from estimator.measures import Metres
from estimator.plan.edits import of_one_picture
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.quantities import area, drawing_scale, length
from estimator.web.state import Session
from estimator.web.wording import plain, told_apart
from estimator.workflow.asking import scale_question
from estimator.workflow.pages import page_of
from estimator.workflow.scaling import (
    DrawnAt,
    Known,
    KnownLength,
    KnownRoom,
    KnownRoomArea,
    KnownTotal,
    scaled_by,
)

ACROSS, DOWN = "from left to right", "from top to bottom"

Rooms = Mapping[str, Room]
Answer = Callable[[], Known]
"""Reads what was typed when the button is pressed, so that the last stroke counts."""


class Way(StrEnum):
    """What somebody may know."""

    EXTENT = "How long a room is"
    SIDES = "Both sizes of a room"
    ROOM_AREA = "The floor area of a room"
    TOTAL_AREA = "The floor area of all rooms"
    DRAWN_AT = "The scale of the drawing"
    POINTS = "The distance of two points"


def scale_panel(session: Session) -> None:
    """Offer every way to set the scale."""
    plan = session.work.plan
    drawn = [room for room in plan.rooms if room.outline_px]
    if not drawn:
        st.markdown("This plan has no picture; its rooms are as large as they were given.")
        return
    storey = _picture(plan, sorted({room.storey for room in drawn}))
    numbers = {level.number for level in of_one_picture(plan, storey)}
    rooms = {room.id: room for room in drawn if room.storey in numbers}
    way = st.selectbox("What do you know?", list(Way), key="scale-way") or Way.EXTENT
    page = page_of(plan.storey(storey), session.work.pages)
    answer = _asked(way, rooms, page.dpi if page else None)

    def take() -> None:
        session.correct(lambda before: scaled_by(before, answer(), storey))

    st.button("Set the scale", type="primary", key="set-scale", on_click=take)


def one_question(session: Session) -> None:
    """Ask for one length where nothing tells the scale, or only a guess."""
    question = scale_question(session.work.plan)
    if question is None:
        return
    key = f"question-{session.edition}"

    def take() -> None:
        session.correct(
            lambda before: scaled_by(
                before,
                KnownLength(
                    start_px=question.start_px,
                    end_px=question.end_px,
                    length=length(_typed(key)),
                ),
                question.storey,
            )
        )

    with st.container(key="question", horizontal=True, vertical_alignment="bottom"):
        st.text_input(
            plain(session.in_units(question.says)), placeholder="12'-6\" or 3.8 m", key=key
        )
        st.button("Set the scale", on_click=take, key="answer")


def _picture(plan: Plan, numbers: Sequence[int]) -> int:
    """Offer the pictures of a plan by their storeys where there are several."""
    together = {number: of_one_picture(plan, number) for number in numbers}
    names = told_apart(
        {
            str(number): " and ".join(
                level.name or f"Storey {level.number + 1}" for level in levels
            )
            for number, levels in together.items()
            if levels[0].number == number
        }
    )
    if len(names) == 1:
        return numbers[0]
    return int(st.selectbox("Storey", list(names), format_func=names.__getitem__))


def extent(room: Room, along: str, known: Metres) -> KnownLength:
    """Return a room's largest extent across or down the picture as a known length.

    Raises
    ------
    PlanError
        When the room is not on the picture.
    """
    if room.outline_px is None:
        raise PlanError(room.name, "it is not on the picture", "choose a room that was read")
    left, top, right, bottom = room.outline_px.bounds
    end = (right, top) if along == ACROSS else (left, bottom)
    return KnownLength(start_px=(left, top), end_px=end, length=known)


def _asked(way: Way, rooms: Rooms, dpi: float | None) -> Answer:
    match way:
        case Way.EXTENT:
            return _extent(rooms)
        case Way.SIDES:
            return _sides(rooms)
        case Way.ROOM_AREA:
            return _room_area(rooms)
        case Way.TOTAL_AREA:
            return _total_area()
        case Way.DRAWN_AT:
            return _drawn_at(dpi)
        case Way.POINTS:
            return _points()


def _extent(rooms: Rooms) -> Answer:
    _ask_room(rooms)
    st.radio("Measured inside, at its longest", [ACROSS, DOWN], key="scale-along")
    _ask("Length", "12'-6\" or 3.8 m", "scale-length")
    return lambda: extent(
        rooms[_typed("scale-room")], _typed("scale-along"), length(_typed("scale-length"))
    )


def _sides(rooms: Rooms) -> Answer:
    _ask_room(rooms)
    _ask("Width, left to right", "12'-6\" or 3.8 m", "scale-width")
    _ask("Depth, top to bottom", "14 ft or 4.2 m", "scale-depth")
    return lambda: KnownRoom(
        room=_typed("scale-room"),
        width=length(_typed("scale-width")),
        depth=length(_typed("scale-depth")),
    )


def _room_area(rooms: Rooms) -> Answer:
    _ask_room(rooms)
    _ask("Its floor area", "153 sq ft or 14.2 m²", "scale-area")
    return lambda: KnownRoomArea(room=_typed("scale-room"), area=area(_typed("scale-area")))


def _total_area() -> Answer:
    _ask("Floor area", "1,250 sq ft or 116 m²", "scale-total")
    st.checkbox("Walls between the rooms are included", value=True, key="scale-walls")
    return lambda: KnownTotal(
        area=area(_typed("scale-total")), with_inner_walls=st.session_state["scale-walls"]
    )


def _drawn_at(dpi: float | None) -> Answer:
    _ask("Scale, with the sheet where you know it", '1:50 @ A3, or 1/4" = 1\'-0"', "scale-drawn")
    st.number_input(
        "Or dots an inch of the picture",
        1.0,
        value=dpi,
        step=1.0,
        format="%.0f",
        placeholder="not known",
        key="scale-dots",
    )
    return lambda: DrawnAt(
        drawing_scale=drawing_scale(_typed("scale-drawn")),
        dpi=st.session_state["scale-dots"],
    )


def _points() -> Answer:
    for column, point in zip(st.columns(2), ("first", "second"), strict=True):
        for axis in ("across", "down"):
            column.number_input(
                f"{point.capitalize()}, pixels {axis}",
                0.0,
                step=1.0,
                format="%.0f",
                key=f"scale-{point}-{axis}",
            )
    _ask("Distance between them", "20 ft or 6 m", "scale-distance")
    return lambda: KnownLength(
        start_px=_point("first"), end_px=_point("second"), length=length(_typed("scale-distance"))
    )


def _ask_room(rooms: Rooms) -> None:
    names = told_apart({room.id: room.name for room in rooms.values()})
    st.selectbox("Room", list(rooms), format_func=names.__getitem__, key="scale-room")


def _ask(label: str, example: str, key: str) -> None:
    st.text_input(label, placeholder=example, key=key)


def _typed(key: str) -> str:
    return str(st.session_state[key])


def _point(which: str) -> tuple[float, float]:
    return st.session_state[f"scale-{which}-across"], st.session_state[f"scale-{which}-down"]
