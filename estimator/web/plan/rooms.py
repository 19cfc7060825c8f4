"""The room table: names, uses and heights corrected in place; rooms deleted and merged."""

from collections.abc import Mapping
from typing import Any

import streamlit as st

from estimator.errors import QuantityError
from estimator.plan.edits import merged, removed, renamed, with_height, with_use
from estimator.plan.plan import Plan
from estimator.quantities import Units, length, shown_area, shown_length
from estimator.surfaces.book import SurfaceBook
from estimator.web.state import Session

PICKED, NAME, USE, HEIGHT, AREA, SURE = "Pick", "Room", "Use", "Ceiling", "Floor", "Sure"

Cells = Mapping[int, Mapping[str, Any]]
"""What was typed, by row and column."""

_HOUSE_UNIT = {Units.METRIC: "m", Units.US: "ft"}


def room_table(session: Session) -> None:
    """Show the rooms as a table that takes corrections."""
    key = table_key(session)
    table = _table(session, key)
    st.data_editor(
        table,
        key=key,
        hide_index=True,
        disabled=[AREA, SURE],
        column_config=_columns(session.work.book.surfaces),
        on_change=take_corrections,
        args=(session, key),
        height=min(36 * (len(table) + 1) + 3, 579),
        row_height=36,
    )
    picked = _picked(session, key)
    with st.container(key="room-tools", horizontal=True, vertical_alignment="center"):
        st.button(
            "Delete",
            icon=":material/delete:",
            disabled=not picked,
            key="delete-rooms",
            on_click=_delete,
            args=(session, key),
            help="Pick rooms in the first column.",
        )
        st.button(
            "Merge",
            icon=":material/join_inner:",
            disabled=len(picked) < 2,
            key="merge-rooms",
            on_click=_merge,
            args=(session, key),
            help="Pick two rooms or more that share a wall; the first keeps its name.",
        )
        st.caption("Type a height as you say it: 2.7 m, 9 ft, 8' 6\".")


def table_key(session: Session) -> str:
    """Return the key of the table as it stands; another one makes it start anew."""
    return f"rooms-{session.edition}-{session.choices}"


def corrected(
    plan: Plan, room_id: str, cells: Mapping[str, Any], uses: Mapping[str, str], units: Units
) -> Plan:
    """Return the plan with the cells typed in a room's row applied.

    Parameters
    ----------
    uses
        Slugs of room uses by label.

    Raises
    ------
    QuantityError
        When the height is none, or higher than any building.
    """
    if NAME in cells:
        plan = renamed(plan, room_id, (cells[NAME] or "").strip())
    if cells.get(USE):
        plan = with_use(plan, room_id, uses[cells[USE]])
    if HEIGHT in cells:
        plan = with_height(plan, room_id, _height(cells[HEIGHT] or "", units))
    return plan


def _height(text: str, units: Units) -> float | None:
    if not text.strip():
        return None
    height = length(text, default_unit=_HOUSE_UNIT[units])
    if not 1 <= height <= 50:
        raise QuantityError(text, "this is no height of a room", "give one such as 2.7 m or 9 ft")
    return height


def _table(session: Session, key: str) -> list[dict[str, Any]]:
    """Return the rows of the table, the same while the user types into it."""
    if key not in st.session_state:
        st.session_state.pop(f"{key}-seen", None)
    elif st.session_state.get("room-rows-of") is session.work:
        return list(st.session_state["room-rows"])
    st.session_state["room-rows"], st.session_state["room-rows-of"] = _rows(session), session.work
    return list(st.session_state["room-rows"])


def _rows(session: Session) -> list[dict[str, Any]]:
    quote, units = session.quote, session.units
    labels = {use.slug: use.label for use in session.work.book.surfaces.uses}
    measured = {room.room: room for room in quote.schedule.rooms} if quote else {}
    rows = []
    for room in session.work.plan.rooms:
        sizes = measured.get(room.id)
        height = room.ceiling_height or (sizes.height if sizes else None)
        rows.append(
            {
                PICKED: room.id in session.chosen,
                NAME: room.name,
                USE: labels.get(room.use, room.use),
                HEIGHT: shown_length(height, units) if height else "",
                AREA: shown_area(room.outline.area, units) if room.outline else "no scale",
                SURE: round(100 * room.confidence),
            }
        )
    return rows


def _columns(book: SurfaceBook) -> dict[str, Any]:
    config = st.column_config
    return {
        PICKED: config.CheckboxColumn(PICKED, width=64),
        NAME: config.TextColumn(NAME, width=150, max_chars=80),
        USE: config.SelectboxColumn(
            USE, options=[use.label for use in book.uses], required=True, width=130
        ),
        HEIGHT: config.TextColumn(
            HEIGHT, width=80, max_chars=30, help="Empty for the usual height of the use."
        ),
        AREA: config.TextColumn(AREA, width=76),
        SURE: config.NumberColumn(
            SURE, format="%d %%", width=60, help="How sure the reading of the room's shape is."
        ),
    }


def take_corrections(session: Session, key: str) -> None:
    """Choose what was picked and apply what was typed since the table was last looked at."""
    session.chosen = _picked(session, key)
    typed: Cells = st.session_state[key]["edited_rows"]
    seen: Cells = st.session_state.get(f"{key}-seen", {})
    st.session_state[f"{key}-seen"] = {row: dict(cells) for row, cells in typed.items()}
    fresh = {
        row: {
            column: value
            for column, value in cells.items()
            if column != PICKED and (column, value) not in seen.get(row, {}).items()
        }
        for row, cells in typed.items()
    }
    if not any(fresh.values()):
        return
    uses = {use.label: use.slug for use in session.work.book.surfaces.uses}
    rooms = session.work.plan.rooms

    def correction(plan: Plan) -> Plan:
        for row, cells in fresh.items():
            plan = corrected(plan, rooms[row].id, cells, uses, session.units)
        return plan

    # Another use may bring another usual height, which the table then shows.
    session.correct(correction, anew=any(USE in cells for cells in fresh.values()))
    st.session_state["room-rows-of"] = session.work


def _picked(session: Session, key: str) -> tuple[str, ...]:
    """Return the rooms that are picked, those that were picked before first."""
    typed = st.session_state.get(key, {}).get("edited_rows", {})
    left_out = {row for row, cells in typed.items() if cells.get(PICKED) is False}
    newly = [row for row, cells in sorted(typed.items()) if cells.get(PICKED)]
    rooms = session.work.plan.rooms
    gone = {rooms[row].id for row in left_out}
    kept = [room for room in session.chosen if room not in gone]
    return tuple(dict.fromkeys([*kept, *(rooms[row].id for row in newly)]))


def _delete(session: Session, key: str) -> None:
    picked = _picked(session, key)

    def without(plan: Plan) -> Plan:
        for room_id in picked:
            plan = removed(plan, room_id)
        return plan

    session.correct(without)


def _merge(session: Session, key: str) -> None:
    picked = _picked(session, key)
    session.correct(lambda plan: merged(plan, picked))
