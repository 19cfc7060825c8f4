"""Nothing lost: the work is kept as it is made, and a page that is loaded again goes on with it."""

import time

import streamlit as st

from estimator.errors import EstimatorError, StaleVersion
from estimator.quantities.counted import counted
from estimator.store.values import JobHead
from estimator.web.state import Session, current
from estimator.web.wording import plain
from estimator.workflow.jobs import jobs, new_id

JOB = "job"
"""The parameter of the address that names the job."""

_OTHER, _UNSAVED = "job-elsewhere", "unsaved"


def bring_back() -> None:
    """Let a page that was just loaded go on with the job that its address names."""
    if "session" not in st.session_state and (job := st.query_params.get(JOB)):
        session = current()
        open_job(session, job)


def open_job(session: Session, job: str) -> None:
    """Go on with a job that was kept, or keep everything and say why not."""
    try:
        stored = jobs().load(job)
    except EstimatorError as error:
        session.problem = str(error)
        return
    session.go_on(stored.history)
    session.job, session.revision = job, stored.revision
    session.kept_as = stored.kept_as


def keep(session: Session) -> None:
    """Keep the work where it changed; of two tabs on one job the later goes on with a copy."""
    if session.work is not session.kept:
        try:
            _keep(session)
            st.session_state.pop(_UNSAVED, None)
        except EstimatorError as error:
            st.session_state[_UNSAVED] = str(error)
    if session.job and st.query_params.get(JOB) != session.job:
        st.query_params[JOB] = session.job


def keeping_notes(session: Session) -> None:
    """Say what became of the work where it could not simply be kept."""
    if says := st.session_state.get(_UNSAVED):
        st.error(f"{plain(says)} Your work is not kept until that is mended.")
    if other := st.session_state.get(_OTHER):
        with st.container(key="elsewhere", horizontal=True, vertical_alignment="center"):
            st.warning(
                "This job was changed in another tab meanwhile. Both versions are kept: you see "
                "yours, which is now a job of its own."
            )

            def show_other() -> None:
                del st.session_state[_OTHER]
                open_job(session, other)

            def go_on() -> None:
                del st.session_state[_OTHER]

            st.button("Show the other version", on_click=show_other, key="show-other")
            st.button("Go on with mine", on_click=go_on, key="go-on")


def recent_jobs(session: Session) -> None:
    """Offer the jobs last worked on."""
    try:
        found = {entry.id: entry for entry in jobs().recent() if entry.id != session.job}
    except EstimatorError as error:
        st.warning(plain(str(error)))
        return
    if not found:
        return
    key = f"recent-{session.edition}"

    def take() -> None:
        open_job(session, st.session_state[key])

    st.subheader("Where you left off")
    st.selectbox(
        "Jobs last worked on",
        list(found),
        index=None,
        format_func=lambda job: _described(found[job]),
        placeholder="Choose a job",
        key=key,
        on_change=take,
    )


def _keep(session: Session) -> None:
    session.job = session.job or new_id()
    kept, history, kept_as = jobs(), session.history, session.kept_as
    try:
        session.revision = kept.save(session.job, history, after=session.revision, kept_as=kept_as)
    except StaleVersion:
        st.session_state[_OTHER] = session.job
        session.job = new_id()
        session.revision = kept.save(session.job, history, after=0, kept_as=kept_as)
    session.kept = session.work


def _described(entry: JobHead) -> str:
    day = time.strftime("%Y-%m-%d %H:%M", time.localtime(entry.saved_at))
    return f"{entry.title or 'Untitled site'} · {counted(entry.rooms, 'room')} · {day}"
