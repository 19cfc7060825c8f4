"""Opening a plan: from a picture or document, a plan.json, typed rooms or a sample."""

from pathlib import PurePath

import streamlit as st
from attrs import evolve

from estimator.intake.pictures import page_count_of
from estimator.web.state import Picture, Session, Work
from estimator.workflow.files import plan_from_text
from estimator.workflow.reading import ReadPlan, read_upload
from estimator.workflow.samples import Sample, samples
from estimator.workflow.sketching import sketch_plan

EXAMPLE = "Kitchen 12' x 14', hall 6 x 2.4 m, 2 bedrooms 4 by 3.5 m, ceilings 9 ft"


def opening_panel(session: Session) -> None:
    """Offer every way to open a plan."""
    _file(session)
    _words(session)
    _sample(session)


def page_choice(session: Session) -> None:
    """Offer the other pages of the document that the plan was read from."""
    picture = session.work.picture
    if picture is None or picture.pages == 1:
        return
    key = f"page-{session.edition}"

    def turn() -> None:
        page = int(st.session_state[key])
        session.change(lambda work: read(work, picture.name, picture.content, page))

    st.number_input(
        f"Page, of {picture.pages}",
        1,
        picture.pages,
        picture.page,
        key=key,
        on_change=turn,
        width=160,
    )


def opened(work: Work, name: str, content: bytes) -> Work:
    """Return the work begun anew with the plan of a file: a plan.json, a picture or a document.

    Raises
    ------
    EstimatorError
        One sentence on what is wrong with the file.
    """
    if name.lower().endswith(".json"):
        return evolve(work, plan=plan_from_text(name, content), picture=None)
    return read(work, name, content)


def read(work: Work, name: str, content: bytes, page: int = 1) -> Work:
    """Return the work begun anew with the plan read from a page.

    Raises
    ------
    EstimatorError
        One sentence on why no plan could be read.
    """
    found = _read_once(content, name, page)
    picture = None
    if found.pixels is not None:
        pages = page_count_of(content, name)
        picture = Picture(name=name, content=content, page=page, pages=pages, dpi=found.dpi)
    title = found.plan.title or PurePath(name).stem.replace("-", " ").replace("_", " ").capitalize()
    return evolve(work, plan=evolve(found.plan, title=title), picture=picture)


def with_sample(work: Work, sample: Sample) -> Work:
    """Return the work begun anew with a sample as its authors drew it."""
    content = sample.picture.read_bytes()
    return evolve(
        work, plan=sample.truth(), picture=Picture(name=sample.picture.name, content=content)
    )


@st.cache_resource(max_entries=16, show_spinner="Reading the plan …")
def _read_once(content: bytes, name: str, page: int) -> ReadPlan:
    """Read a page, once for all sessions while it is remembered."""
    return read_upload(content, name, page=page)


def _file(session: Session) -> None:
    key = f"file-{session.edition}"

    def take() -> None:
        upload = st.session_state[key]
        if upload is not None:
            session.change(lambda work: opened(work, upload.name, upload.getvalue()))

    st.subheader("From a file")
    st.file_uploader("A picture, a PDF, a DXF, an IFC or a plan.json", key=key, on_change=take)


def _words(session: Session) -> None:
    def take() -> None:
        text = st.session_state["words"]
        session.change(
            lambda work: evolve(work, plan=sketch_plan(text, book=work.book), picture=None)
        )

    st.subheader("From words")
    st.text_area(
        "Rooms as you would say them, sizes in any unit",
        placeholder=EXAMPLE,
        key="words",
        height=90,
    )
    st.button("Lay out these rooms", on_click=take, key="lay-out")


def _sample(session: Session) -> None:
    offered = {sample.picture.name: sample for sample in samples()}

    def worked_out() -> None:
        sample = offered[st.session_state["sample"]]
        session.change(lambda work: with_sample(work, sample))

    def from_picture() -> None:
        path = offered[st.session_state["sample"]].picture
        session.change(lambda work: read(work, path.name, path.read_bytes()))

    st.subheader("From a sample")
    st.selectbox(
        "Plans of the invented town of Larkfield",
        list(offered),
        format_func=lambda name: offered[name].title,
        key="sample",
    )
    with st.container(horizontal=True):
        st.button("Read its picture", on_click=from_picture, key="read-sample")
        st.button("Open it worked out", on_click=worked_out, key="open-sample")
