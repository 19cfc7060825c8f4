"""Opening a plan: a sample, typed rooms or a file."""

import streamlit as st
from attrs import evolve

from estimator.errors import SourceError
from estimator.web.state import Picture, Session, Work
from estimator.workflow.files import plan_from_text
from estimator.workflow.samples import Sample, samples
from estimator.workflow.sketching import sketch_plan

EXAMPLE = "Kitchen 12' x 14', hall 6 x 2.4 m, 2 bedrooms 4 by 3.5 m, ceilings 9 ft"


def opening_panel(session: Session) -> None:
    """Offer every way to open a plan."""
    _file(session)
    st.divider()
    _words(session)
    st.divider()
    _sample(session)


def _file(session: Session) -> None:
    key = f"file-{session.edition}"

    def take() -> None:
        upload = st.session_state[key]
        if upload is not None:
            session.change(lambda work: opened(work, upload.name, upload.getvalue()))

    st.file_uploader(
        "A plan.json",
        type=["json"],
        key=key,
        on_change=take,
    )


def opened(work: Work, name: str, content: bytes) -> Work:
    """Return the work begun anew with the plan of a file."""
    if not content:
        raise SourceError(name, "the file is empty", "choose another one")
    return evolve(work, plan=plan_from_text(name, content), picture=None)


def _words(session: Session) -> None:
    key = f"words-{session.edition}"

    def take() -> None:
        session.change(
            lambda work: evolve(
                work, plan=sketch_plan(st.session_state[key], book=work.book), picture=None
            )
        )

    st.text_area("Rooms in words, sizes in any unit", placeholder=EXAMPLE, key=key, height=90)
    st.button("Lay out these rooms", on_click=take, key=f"lay-out-{session.edition}")


def _sample(session: Session) -> None:
    offered = {sample.picture.name: sample for sample in samples()}

    def worked_out() -> None:
        sample = offered[st.session_state[key]]
        session.change(lambda work: evolve(work, plan=sample.truth(), picture=_picture(sample)))

    key = f"sample-{session.edition}"
    st.selectbox(
        "A sample plan", list(offered), format_func=lambda name: offered[name].title, key=key
    )
    st.button("Open it worked out", on_click=worked_out, key=f"worked-out-{session.edition}")


def _picture(sample: Sample) -> Picture:
    return Picture(name=sample.picture.name, content=sample.picture.read_bytes())
