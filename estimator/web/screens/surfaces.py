"""Surfaces: what is treated, how much of it there is, and where."""

import streamlit as st
from attrs import evolve

from estimator.errors import QuantityError
from estimator.quantities import length, shown_area, shown_length
from estimator.quote.quote import Quote
from estimator.surfaces.schedule import RoomSchedule, SurfaceKind
from estimator.surfaces.scope import PARTS
from estimator.surfaces.totals import by_kind, total
from estimator.web.charts import NAMES, area_chart, drawn
from estimator.web.state import Session, current
from estimator.web.tables import figures_table
from estimator.web.wording import plain, told_apart

_PARTS = {part: words.capitalize() for part, words in PARTS.items()}


def show() -> None:
    """Show the schedule of surfaces."""
    session = current()
    quote = session.quote
    if not quote:
        return
    chart, scope = st.columns([13, 7], gap="large")
    with chart:
        st.subheader("Area by surface")
        drawn(area_chart(by_kind(quote.schedule), session.units), "Area by kind of surface")
    with scope:
        _scope(session)
    st.subheader("Room by room")
    _rooms(quote, session)
    _one_room(quote, session)


def _scope(session: Session) -> None:
    st.subheader("What is treated")
    scope = session.work.job.scope

    def take_parts() -> None:
        chosen = set(st.session_state[parts_key])
        session.set_job(scope=evolve(scope, **{part: part in chosen for part in _PARTS}))

    def take_height() -> None:
        text = st.session_state[height_key]
        session.change(
            lambda work: evolve(
                work, job=evolve(work.job, scope=evolve(scope, walls_to=_walls_to(text)))
            )
        )

    parts_key, height_key = f"parts-{session.edition}", f"walls-to-{session.edition}"
    st.pills(
        "Surfaces that are part of the job",
        list(_PARTS),
        selection_mode="multi",
        default=[part for part in _PARTS if getattr(scope, part)],
        format_func=_PARTS.__getitem__,
        key=parts_key,
        wrap=True,
        on_change=take_parts,
    )
    st.text_input(
        "Walls up to",
        shown_length(scope.walls_to, session.units) if scope.walls_to else "",
        key=height_key,
        on_change=take_height,
        placeholder="full height",
        help="Such as 2 m or 6 ft; empty for full height.",
        width=220,
    )


def _walls_to(text: str) -> float | None:
    if not text.strip():
        return None
    height = length(text)
    if not height > 0:
        raise QuantityError(text, "no wall is treated up to there", "give a height above 0")
    return height


def _rooms(quote: Quote, session: Session) -> None:
    units = session.units
    kinds = [kind for kind in SurfaceKind if kind in by_kind(quote.schedule)]

    def row(name: str, use: str, rooms: tuple[RoomSchedule, ...]) -> dict[str, str]:
        surfaces = [surface for room in rooms for surface in room.surfaces]
        areas = {kind: total(one for one in surfaces if one.kind is kind) for kind in kinds}
        return {
            "Room": name,
            "Use": use,
            "Floor area": shown_area(sum(room.floor_area for room in rooms), units),
            "Treated": shown_area(sum(room.treated for room in rooms), units),
        } | {
            NAMES[kind]: shown_area(areas[kind].treated, units) if areas[kind].treated else "–"
            for kind in kinds
        }

    rooms = quote.schedule.rooms
    table = [row(room.name, room.use_label, (room,)) for room in rooms]
    table.append(row("All rooms", "", rooms))
    figures_table(table, words=("Room", "Use"))


def _one_room(quote: Quote, session: Session) -> None:
    rooms = {room.room: room for room in quote.schedule.rooms}
    names = told_apart({room.room: room.name for room in quote.schedule.rooms})
    with st.expander("Every surface of one room"):
        chosen = st.selectbox("Room", list(rooms), format_func=names.__getitem__, key="one-room")
        if chosen is None:
            return
        room, units = rooms[chosen], session.units
        table = [
            {
                "Surface": surface.label,
                "Pieces": f"{surface.count:,}",
                "Gross": shown_area(surface.gross, units),
                "Deducted": shown_area(surface.deducted, units) if surface.deducted else "–",
                "Net": shown_area(surface.net, units),
                "Treated": shown_area(surface.treated, units) if surface.treated else "–",
                "Known": surface.basis.value,
                "Touches food": "yes" if surface.food_contact else "",
            }
            for surface in room.surfaces
        ]
        figures_table(table, words=("Surface", "Known", "Touches food"))
        for doubt in room.assumed:
            st.caption(plain(session.in_units(doubt.says)))
