"""What the label and the safety data sheet of the product say, entered fact by fact."""

from collections.abc import Callable
from typing import Any

import streamlit as st
from attrs import asdict, evolve

from estimator.errors import QuantityError
from estimator.quantities import (
    Units,
    declared_strength,
    droplets,
    label_uses,
    quantity,
    shown_concentration,
    shown_duration,
    shown_mass,
    shown_share,
)
from estimator.treatment.label import KEPT_APART, Additive, droplet_words
from estimator.treatment.product import Form, LabelUse, Product
from estimator.web.fields import typed
from estimator.web.state import Session
from estimator.web.wording import plain
from estimator.workflow.work import Work

_UNREAD = "not read yet"
_MIST = {None: _UNREAD, True: "yes, it gives directions", False: "no"}
_ORDER = {False: "from weak to strong", True: "from strong to weak"}
_EXAMPLE = {
    Form.TABLET: "1.5 g per tablet",
    Form.POWDER: "60 % by weight",
    Form.LIQUID: "12.5 % trade",
    Form.READY: "1000 ppm",
}


def label_panel(session: Session) -> None:
    """Show the facts of the label in fields; a fact left empty was not read yet."""
    product = session.work.book.product(session.work.job.product)
    with st.expander("What its label says"):
        st.caption(f"{plain(_strength(product))}: {plain(product.basis)}.")
        for name, label, shown, read, hints in _facts(product):
            typed(session, f"label-{name}", label, shown, _with_fact(name, read), **hints)
            if name == "uses":
                _served(session, product)
        _chosen(session, "charged_mist", "Charged mist or fog", _MIST, product.charged_mist)
        _chosen(session, "strong_first", "Order of strengths", _ORDER, product.strong_first)
    _reacting(session, "added", "Anything else in the tank", tuple(Additive))
    _reacting(session, "beside", "What else is used on the site that day", KEPT_APART)
    with st.expander("Enter another product"):
        st.caption("Its facts start empty; its price is that of the first product of its form.")
        form = Form(st.selectbox("Form", [one.value for one in Form], key="new-form"))
        name = st.text_input("Name on its label", key="new-name").strip()
        strength = st.text_input(
            "Declared strength, and per cent of what",
            key="new-strength",
            placeholder=_EXAMPLE[form],
        ).strip()
        st.button(
            "Enter it", key="new-product", on_click=_enter, args=(session, name, form, strength)
        )


def _facts(
    product: Product,
) -> tuple[tuple[str, str, str, Callable[[str], dict[str, Any]], dict[str, Any]], ...]:
    """Return for each fact its name, field, what is known, how it is read, and hints."""
    form = product.form

    def measured(name: str, unit: str) -> Callable[[str], dict[str, Any]]:
        return lambda text: {name: quantity(text, unit) if text else None}

    return (
        (
            "declared",
            "Declared strength, and per cent of what",
            "",
            lambda text: asdict(declared_strength(text, form)),
            {"example": _EXAMPLE[form]},
        ),
        ("active", "Active ingredient", product.active, lambda text: {"active": text}, {}),
        (
            "uses",
            "Uses, one on a line",
            "\n".join(map(_use, product.uses)),
            lambda text: {"uses": _still_serving(label_uses(text), product)},
            {"example": "Hard surfaces: 1000 ppm for 10 min", "lines": True},
        ),
        (
            "most",
            "Strongest solution allowed",
            shown_concentration(product.most) if product.most else "",
            measured("most", "kg/m^3"),
            {"example": "5000 ppm"},
        ),
        (
            "droplets",
            "Droplets asked for",
            droplet_words(product).removeprefix("at least "),
            lambda text: dict(
                zip(
                    ("droplet_least", "droplet_most"),
                    droplets(text) if text else (None, None),
                    strict=True,
                )
            ),
            {"example": "40 to 80 µm"},
        ),
        (
            "rinse",
            "Rinse what touches food above",
            "" if product.rinse_above is None else shown_concentration(product.rinse_above),
            measured("rinse_above", "kg/m^3"),
            {"example": "200 ppm"},
        ),
        (
            "reentry",
            "People stay out for",
            "" if product.reentry is None else shown_duration(product.reentry),
            measured("reentry", "s"),
            {"example": "2 h"},
        ),
        (
            "keeps",
            "Mixed solution keeps for",
            "" if product.mix_keeps is None else shown_duration(product.mix_keeps),
            measured("mix_keeps", "s"),
            {"example": "24 h"},
        ),
        (
            "registration",
            "Registration number",
            product.registration,
            lambda text: {"registration": text},
            {},
        ),
        (
            "expires",
            "Expires",
            product.expires,
            lambda text: {"expires": text},
            {"example": "2027-03-31"},
        ),
    )


def _strength(product: Product) -> str:
    if product.available_per_tablet:
        return f"{shown_mass(product.available_per_tablet, Units.METRIC)} per tablet"
    if product.available_share:
        return shown_share(product.available_share)
    if product.available_strength:
        return shown_concentration(product.available_strength)
    return "Strength not known"


def _use(use: LabelUse) -> str:
    strengths = shown_concentration(use.least)
    if use.most > use.least:
        strengths += f" to {shown_concentration(use.most)}"
    return f"{use.label}: {strengths} for {shown_duration(use.contact_time)}"


def _still_serving(uses: tuple[LabelUse, ...], product: Product) -> tuple[LabelUse, ...]:
    """Return uses typed anew, those that stand as before still in their zones."""
    zones = {evolve(use, zones=()): use.zones for use in product.uses}
    return tuple(evolve(use, zones=zones.get(use, ())) for use in uses)


def _served(session: Session, product: Product) -> None:
    """Ask for each use which strength zones it was read for."""
    zones = {zone.slug: zone.label for zone in session.work.book.zones}
    for number, use in enumerate(product.uses):
        key = f"serves-{product.slug}-{number}-{session.edition}"

        def take(number: int = number, key: str = key) -> None:
            uses = list(product.uses)
            uses[number] = evolve(uses[number], zones=tuple(st.session_state[key]))
            session.change(lambda work: _with_label(work, uses=tuple(uses)), anew=False)

        st.multiselect(
            f"{plain(use.label)} serves",
            list(zones),
            [slug for slug in use.zones if slug in zones],
            format_func=zones.__getitem__,
            key=key,
            on_change=take,
            placeholder="any zone of its strength",
            help="The contact time of a use that serves a zone comes before that of all others.",
        )


def _with_fact(
    name: str, read: Callable[[str], dict[str, Any]]
) -> Callable[[str], Callable[[Work], Work]]:
    def change_for(text: str) -> Callable[[Work], Work]:
        if not text and name in ("declared", "active"):
            raise QuantityError("label", "this is asked for of every product", "copy it again")
        facts = read(text)
        return lambda work: _with_label(work, **facts)

    return change_for


def _with_label(work: Work, **facts: Any) -> Work:
    """Return the work with facts of its product's label."""
    products = tuple(
        evolve(one, source="label, entered for this job", **facts)
        if one.slug == work.job.product
        else one
        for one in work.book.products
    )
    return evolve(work, book=evolve(work.book, products=products))


def _chosen(
    session: Session, name: str, label: str, names: dict[Any, str], value: bool | None
) -> None:
    key = f"label-{name}-{session.edition}"

    def take() -> None:
        facts = {name: st.session_state[key]}
        session.change(lambda work: _with_label(work, **facts), anew=False)

    options = list(names)
    st.selectbox(
        label,
        options,
        index=options.index(value),
        format_func=names.__getitem__,
        key=key,
        on_change=take,
    )


def _reacting(session: Session, name: str, label: str, offered: tuple[Additive, ...]) -> None:
    """Ask for what would react with chlorine, in the tank or on the site."""
    key = f"{name}-{session.edition}"

    def take() -> None:
        session.set_job(**{name: tuple(st.session_state[key])})

    st.multiselect(
        label,
        offered,
        list(getattr(session.work.job, name)),
        format_func=lambda one: one.value,
        key=key,
        on_change=take,
        placeholder="nothing",
    )


def _enter(session: Session, name: str, form: Form, strength: str) -> None:
    """Put another product into the book of this job and choose it."""

    def change(work: Work) -> Work:
        if not name:
            raise QuantityError("new product", "it has no name", "copy that of its label")
        slug = f"own_{len(work.book.products) + 1}"
        product = Product(
            slug=slug,
            label=name,
            active="as its label says",
            form=form,
            **asdict(declared_strength(strength, form)),
            source="label, entered for this job",
            as_of=work.book.air.as_of,
        )
        alike = next((one.slug for one in work.book.products if one.form is form), "")
        prices = tuple(
            evolve(row, product=slug, source=f"as {alike}; put in your own")
            for row in work.book.rates.products
            if row.product == alike
        )
        rates = evolve(work.book.rates, products=(*work.book.rates.products, *prices))
        book = evolve(work.book, products=(*work.book.products, product), rates=rates)
        return evolve(work, book=book, job=evolve(work.job, product=slug))

    session.change(change)
