"""Opening a plan: from pictures and documents, a plan.json, typed rooms or a sample."""

from collections.abc import Sequence

import streamlit as st
from attrs import evolve

from estimator.plan.edits import stacked
from estimator.plan.plan import Plan
from estimator.web.keeping import recent_jobs
from estimator.web.state import Session
from estimator.workflow.files import plan_from_text
from estimator.workflow.opening import is_plan, is_typed, titled, typed_plan
from estimator.workflow.pages import File
from estimator.workflow.reading import ReadPlan, read_files
from estimator.workflow.samples import Sample, samples
from estimator.workflow.sketching import sketch_plan
from estimator.workflow.work import Work

EXAMPLE = "Kitchen 12' x 14', hall 6 x 2.4 m, 2 bedrooms 4 by 3.5 m, ceilings 9 ft"


def opening_panel(session: Session) -> None:
    """Offer every way to open a plan."""
    _empty(session)
    recent_jobs(session)
    _files(session)
    _words(session)
    _sample(session)


def opened(work: Work, files: Sequence[File]) -> Work:
    """Return the work begun anew with the plan of files, each a storey or several of it.

    Raises
    ------
    EstimatorError
        One sentence on what is wrong with the files.
    """
    plans = [plan_from_text(file.name, file.content) for file in files if is_plan(file)]
    plans += [typed_plan(file, work.book) for file in files if is_typed(file)]
    others = tuple(file for file in files if not (is_plan(file) or is_typed(file)))
    if not others:
        return evolve(work, plan=titled(stacked(plans), files[0].name), pages=())
    found = read(work, others)
    return evolve(found, plan=stacked([found.plan, *plans])) if plans else found


def read(work: Work, files: tuple[File, ...]) -> Work:
    """Return the work begun anew with the plan read from pictures and documents.

    Raises
    ------
    EstimatorError
        One sentence on why no plan could be read.
    """
    found = _read_once(files)
    return evolve(work, plan=titled(found.plan, files[0].name), pages=found.pages)


def with_sample(work: Work, sample: Sample) -> Work:
    """Return the work begun anew with a sample as its authors drew it."""
    return evolve(work, plan=sample.truth(), pages=(sample.page,))


@st.cache_resource(
    max_entries=16,
    show_spinner="Reading the plan …",
    hash_funcs={File: lambda file: (file.name, file.content)},
)
def _read_once(files: tuple[File, ...]) -> ReadPlan:
    """Read files, once for all sessions while it is remembered."""
    return read_files(files)


def _empty(session: Session) -> None:
    def take() -> None:
        session.open(lambda work: evolve(work, plan=Plan(), pages=()))

    st.button(
        "Begin an empty sketch",
        icon=":material/draw:",
        on_click=take,
        key="empty-sketch",
        type="primary",
    )


def _files(session: Session) -> None:
    key = f"file-{session.edition}"

    def take() -> None:
        uploads = st.session_state[key]
        if uploads:
            files = [File(name=upload.name, content=upload.getvalue()) for upload in uploads]
            session.open(lambda work: opened(work, files))

    st.subheader("From files")
    st.file_uploader(
        "Pictures, PDFs, DXF, IFC, plan.json, or typed rooms as .txt; several are the storeys of "
        "one site",
        key=key,
        on_change=take,
        accept_multiple_files=True,
    )


def _words(session: Session) -> None:
    def take() -> None:
        text = st.session_state["words"]
        session.open(lambda work: evolve(work, plan=sketch_plan(text, book=work.book), pages=()))

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
        session.open(lambda work: with_sample(work, sample))

    def from_picture() -> None:
        file = offered[st.session_state["sample"]].page.file
        session.open(lambda work: read(work, (file,)))

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
