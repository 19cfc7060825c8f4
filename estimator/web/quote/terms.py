"""What is agreed with the client: hours, term, place of tax, discount, options beside the scope."""

from decimal import Decimal

import streamlit as st
from attrs import evolve

from estimator.errors import QuantityError
from estimator.estimation.job import MOST_ALTERNATIVES, Alternative
from estimator.price.conditions import MOST_VISITS
from estimator.price.hours import Hours
from estimator.price.recurrence import Every
from estimator.quantities import length
from estimator.quantities.shown_money import shown_money
from estimator.surfaces.scope import PARTS, Scope
from estimator.web.state import Session
from estimator.web.wording import plain
from estimator.workflow.work import Work

_FIXED = {True: "One fixed price", False: "The likely range"}
_SURFACES = {part: words.capitalize() for part, words in PARTS.items()}


def terms_panel(session: Session) -> None:
    """Show what is agreed as fields, each change priced at once, and the options as a list."""
    st.subheader("What is agreed")
    for finding in session.quote.price.findings if session.quote else ():
        st.warning(plain(finding))
    _conditions(session)
    _options(session)


def _conditions(session: Session) -> None:
    job, rates, edition = session.work.job, session.work.book.rates, session.edition

    def key(name: str) -> str:
        return f"terms-{name}-{edition}"

    def take(name: str) -> None:
        session.set_job(**{name: st.session_state[key(name)]})

    def take_discount() -> None:
        session.set_job(discount=Decimal(str(st.session_state[key("discount")])) / 100)

    hours = [Hours.DAY, *(row.hours for row in rates.premiums)]
    st.segmented_control(
        "Hours",
        list(dict.fromkeys([*hours, job.hours])),
        default=job.hours,
        required=True,
        format_func=str.capitalize,
        key=key("hours"),
        on_change=take,
        args=("hours",),
    )
    visits, every = st.columns(2)
    visits.number_input(
        "Visits", 1, MOST_VISITS, job.visits, key=key("visits"), on_change=take, args=("visits",)
    )
    every.selectbox(
        "One every",
        list(Every),
        index=list(Every).index(job.every) if job.every else None,
        placeholder="not said",
        key=key("every"),
        on_change=take,
        args=("every",),
    )
    place, discount = st.columns(2)
    places = {row.slug: row.label for row in rates.places}
    usual = job.place or rates.place
    place.selectbox(
        "Taxes of",
        list(places),
        index=list(places).index(usual) if usual in places else None,
        format_func=places.__getitem__,
        key=key("place"),
        on_change=take,
        args=("place",),
    )
    discount.number_input(
        "Discount, %",
        0.0,
        100.0,
        float(job.discount * 100),
        step=1.0,
        format="%.1f",
        key=key("discount"),
        on_change=take_discount,
    )
    st.segmented_control(
        "The client is shown",
        list(_FIXED),
        default=job.fixed,
        required=True,
        format_func=_FIXED.__getitem__,
        key=key("fixed"),
        on_change=take,
        args=("fixed",),
    )


def _options(session: Session) -> None:
    """Show the other scopes that are offered, and let one be added or taken out."""
    offered = session.quote.options[1:] if session.quote else ()
    with st.container(key="options"):
        st.markdown("**Options beside this scope**")
        for number, option in enumerate(offered):
            with st.container(key=f"option-{number}", horizontal=True, vertical_alignment="center"):
                price = shown_money(option.price.total)
                st.markdown(f"{plain(option.name)}: {plain(price)}", width="stretch")
                st.button(
                    "",
                    icon=":material/close:",
                    help="Take this option out",
                    key=f"option-out-{number}-{session.edition}",
                    on_click=_take_out,
                    args=(session, number),
                )
        if len(session.work.job.alternatives) < MOST_ALTERNATIVES:
            _another(session)


def _another(session: Session) -> None:
    """Offer the book's options, and fields for another."""
    job = session.work.job
    offered = {job.scope, *(one.scope for one in job.alternatives)}
    usual = {one.slug: one for one in session.work.book.options if one.scope not in offered}
    key = f"option-usual-{session.edition}-{len(job.alternatives)}"

    def take() -> None:
        one = usual[st.session_state[key]]
        session.change(lambda work: _with(work, one.scope, one.label))

    if usual:
        st.selectbox(
            "One of your options",
            list(usual),
            index=None,
            format_func=lambda slug: usual[slug].label,
            placeholder="choose one to offer",
            key=key,
            on_change=take,
            label_visibility="collapsed",
        )
    _other_scope(session, job.scope)


def _other_scope(session: Session, scope: Scope) -> None:
    """Show the fields of an option that the book does not have."""
    keys = {name: f"option-{name}-{session.edition}" for name in ("parts", "walls", "name")}

    def add() -> None:
        parts, walls_to, name = (st.session_state[key] for key in keys.values())
        session.change(lambda work: _with(work, _scope(parts, walls_to.strip()), name.strip()))

    with st.popover("Offer another scope", icon=":material/add:"):
        st.pills(
            "It covers",
            list(_SURFACES),
            selection_mode="multi",
            default=[part for part in _SURFACES if getattr(scope, part)],
            format_func=_SURFACES.__getitem__,
            key=keys["parts"],
            wrap=True,
        )
        st.text_input("Walls up to", placeholder="full height", key=keys["walls"])
        st.text_input("Name", placeholder="by what it covers", key=keys["name"])
        st.button("Add", type="primary", key=f"option-add-{session.edition}", on_click=add)


def _scope(parts: list[str], walls_to: str) -> Scope:
    if not parts:
        raise QuantityError("the option", "it covers nothing", "choose at least one surface")
    height = length(walls_to) if walls_to else None
    return Scope(walls_to=height, **{part: part in parts for part in _SURFACES})


def _with(work: Work, scope: Scope, name: str) -> Work:
    alternatives = (*work.job.alternatives, Alternative(scope=scope, name=name))
    return evolve(work, job=evolve(work.job, alternatives=alternatives))


def _take_out(session: Session, number: int) -> None:
    def without(work: Work) -> Work:
        given = work.job.alternatives
        left = given[:number] + given[number + 1 :]
        return evolve(work, job=evolve(work.job, alternatives=left))

    session.change(without)
