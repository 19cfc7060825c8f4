"""Solution: how strong, how much, how it is mixed, and whether it stays wet."""

from collections.abc import Callable

import streamlit as st
from attrs import evolve

from estimator.measures import KilogramsPerCubicMetre
from estimator.quantities import droplet_size, shown_concentration, shown_duration
from estimator.quote.quote import Quote
from estimator.treatment.cautions import Decision
from estimator.treatment.dilution import from_ppm, to_ppm
from estimator.treatment.label import micrometres
from estimator.treatment.product import Form
from estimator.treatment.zone import Zone
from estimator.treatment.zoning import ZoneRule
from estimator.web.cautions import caution_panel, unconfirmed_panel
from estimator.web.fields import typed
from estimator.web.plan.drawings import chosen_storey, plan_by_strength
from estimator.web.solution.label import label_panel
from estimator.web.solution.measuring import measuring_panel
from estimator.web.solution.mixes import mixes_panel
from estimator.web.solution.wetness import wetness_panel
from estimator.web.state import Session, current
from estimator.web.tables import figures_table
from estimator.web.wording import plain
from estimator.workflow.work import Work


def show() -> None:
    """Show the solution beside the cautions for its strength."""
    session = current()
    quote = session.quote
    left, right = st.columns([13, 7], gap="large")
    with left:
        if quote:
            mixes_panel(quote, session)
            st.subheader("Where it goes")
            plan_by_strength(session, chosen_storey(session))
            wetness_panel(quote, session)
            _strengths(quote, session)
    with right:
        _choices(quote, session)
        label_panel(session)
        measuring_panel(session)
        if quote:
            unconfirmed_panel(quote)
            caution_panel(quote, Decision.STRENGTH)


def _choices(quote: Quote | None, session: Session) -> None:
    work = session.work
    st.subheader("Product and strength")
    products = {product.slug: product for product in work.book.products}
    sprayers = {sprayer.slug: sprayer for sprayer in work.book.sprayers}
    _choice(session, "product", "Product", {slug: one.label for slug, one in products.items()})
    _choice(session, "sprayer", "Sprayer", {slug: one.label for slug, one in sprayers.items()})
    size = sprayers[work.job.sprayer].droplets
    typed(
        session,
        "sprayer-droplets",
        "Its droplets",
        micrometres(size) if size else "",
        _with_droplets,
        hint="Volume median diameter by its papers, to be held against the label.",
        example="55 µm",
    )
    product = products[work.job.product]
    if product.form is Form.READY:
        st.caption("The product is ready to use; its strength is that of its label.")
    used = {dose.zone for dose in quote.solution.doses} if quote else None
    for zone in work.book.zones:
        if used is None or zone.slug in used:
            _strength(session, zone, fixed=product.form is Form.READY, most=product.most)


def _choice(session: Session, field: str, label: str, names: dict[str, str]) -> None:
    key = f"{field}-{session.edition}"
    slugs = list(names)

    def take() -> None:
        session.set_job(**{field: st.session_state[key]})

    st.selectbox(
        label,
        slugs,
        index=slugs.index(getattr(session.work.job, field)),
        format_func=names.__getitem__,
        key=key,
        on_change=take,
    )


def _with_droplets(text: str) -> Callable[[Work], Work]:
    size = droplet_size(text) if text else None

    def change(work: Work) -> Work:
        sprayers = tuple(
            evolve(one, droplets=size) if one.slug == work.job.sprayer else one
            for one in work.book.sprayers
        )
        return evolve(work, book=evolve(work.book, sprayers=sprayers))

    return change


def _strength(
    session: Session, zone: Zone, *, fixed: bool, most: KilogramsPerCubicMetre | None
) -> None:
    key = f"ppm-{zone.slug}-{session.edition}"

    def take() -> None:
        session.change(_with_strength(zone, from_ppm(st.session_state[key])), anew=False)

    st.number_input(
        f"{plain(zone.label)}, ppm",
        min_value=1.0,
        max_value=max(to_ppm(most), to_ppm(zone.strength)) if most else None,
        value=to_ppm(zone.strength),
        step=50.0,
        format="%.0f",
        key=key,
        on_change=take,
        disabled=fixed,
        help=f"Must stay wet for {shown_duration(zone.contact_time)}, or longer by the label. "
        f"{plain(zone.source)}",
    )


def _with_strength(zone: Zone, strength: KilogramsPerCubicMetre) -> Callable[[Work], Work]:
    def change(work: Work) -> Work:
        mine = evolve(zone, strength=strength, source="set by hand for this job")
        zones = tuple(mine if one.slug == zone.slug else one for one in work.book.zones)
        return evolve(work, book=evolve(work.book, zones=zones))

    return change


def _strengths(quote: Quote, session: Session) -> None:
    """Show which surfaces of which rooms take which strength, and who says so."""
    book = session.work.book
    treated: dict[str, dict[str, None]] = {}
    for room in quote.schedule.rooms:
        for surface in room.surfaces:
            if surface.treated:
                treated.setdefault(surface.zone, {})[room.use_label] = None
    st.subheader("Which strength where")
    used = [zone for zone in book.zones if zone.slug in treated]
    figures_table(
        [
            {
                "Zone": zone.label,
                "Strength": shown_concentration(zone.strength),
                "Rooms": ", ".join(treated[zone.slug]),
            }
            for zone in used
        ],
        words=("Zone", "Rooms"),
    )
    uses = {room.use for room in quote.schedule.rooms}
    rules = [rule for rule in book.zoning if uses & set(rule.uses)]
    with st.expander("Where these come from"):
        st.markdown(
            "\n".join(
                [f"- {plain(zone.label)}: {plain(zone.source)}" for zone in used]
                + [f"- {plain(_ruled(rule, session))}: {plain(rule.source)}" for rule in rules]
            )
        )


def _ruled(rule: ZoneRule, session: Session) -> str:
    uses = [use.label for use in session.work.book.surfaces.uses if use.slug in rule.uses]
    what = [*rule.surfaces, *(["what food touches"] if rule.food_contact else [])]
    return ", ".join([*(uses or ["Every room"]), *what])
