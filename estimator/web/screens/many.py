"""Many plans: each priced in the background, a row as soon as it is done."""

import time

import streamlit as st
from attrs import evolve

from estimator.batch.background import background
from estimator.batch.kept import KeptBatch, keep_batch, kept_batches
from estimator.batch.row import Row, Status
from estimator.errors import EstimatorError
from estimator.quantities import Units, shown_area, shown_duration, shown_volume
from estimator.quantities.counted import counted
from estimator.quantities.shown_money import shown_money
from estimator.web.heading import page_heading
from estimator.web.plan.opening import opened
from estimator.web.screens import plan
from estimator.web.state import Session, current
from estimator.web.tables import figures_table
from estimator.web.wording import plain
from estimator.workflow.pages import File
from estimator.workflow.samples import samples

_LOOKED_AT_EVERY = 1.0
"""Seconds from one look at a running batch to the next."""


def show() -> None:
    """Show where plans are given, and what became of those that were."""
    session = current()
    page_heading("Many plans", "Each plan becomes a priced row; one that fails says why.")
    given, worked_out = st.columns([1, 2.6], gap="large")
    with given:
        _give(session)
    with worked_out:
        st.subheader("Results")
        batches = {kept.folder.name: kept for kept in kept_batches()}
        if not batches:
            st.markdown("Each plan becomes a row here, as soon as it is done.")
            return
        kept = _chosen(batches)
        if _ended_with_the_app(kept):
            background().start(kept)
        running = background().is_running(kept)
        look = st.fragment(_results, run_every=_LOOKED_AT_EVERY if running else None)
        look(session, kept, looked_at=running)


def _give(session: Session) -> None:
    edition = st.session_state.setdefault("many-edition", 0)
    offered = {sample.picture.name: sample for sample in samples()}
    st.subheader("Plans")
    uploads = st.file_uploader(
        "Pictures, PDFs, DXF, IFC, plan.json, or typed rooms as .txt; each file is one site",
        accept_multiple_files=True,
        key=f"many-files-{edition}",
    )
    chosen = st.multiselect(
        "Sample plans",
        list(offered),
        format_func=lambda name: offered[name].title,
        placeholder="Choose samples",
        key=f"many-samples-{edition}",
    )
    product = session.work.book.product(session.work.job.product).label
    st.caption(
        f"Priced with the book and the choices of the present work: {plain(product)}, crew of "
        f"{session.work.job.crew}."
    )

    def begin() -> None:
        files = [File(name=upload.name, content=upload.getvalue()) for upload in uploads]
        files += [offered[name].page.file for name in chosen]
        try:
            kept = keep_batch(files, session.work.book, session.work.job)
        except EstimatorError as error:
            session.problem = str(error)
            return
        background().start(kept)
        st.session_state["many-batch"] = kept.folder.name
        st.session_state["many-edition"] += 1

    count = len(uploads) + len(chosen)
    st.button(
        f"Work out {counted(count, 'plan')}" if count else "Work them out",
        on_click=begin,
        disabled=not count,
        type="primary",
        key="many-begin",
    )


def _chosen(batches: dict[str, KeptBatch]) -> KeptBatch:
    """Return the batch to show, the latest unless another is chosen."""
    if st.session_state.get("many-batch") not in batches:
        st.session_state["many-batch"] = next(iter(batches))
    name: str = st.selectbox(
        "Batch", list(batches), format_func=lambda name: _described(batches[name]), key="many-batch"
    )
    return batches[name]


def _described(kept: KeptBatch) -> str:
    day = time.strftime("%Y-%m-%d %H:%M", time.localtime(kept.began_at))
    return f"{day} · {counted(len(kept.names), 'plan')}"


def _ended_with_the_app(kept: KeptBatch) -> bool:
    """Whether nobody stopped a batch, nothing went wrong with it, and yet it is not done."""
    there = background()
    if there.is_running(kept) or kept.is_stopped or there.problem(kept):
        return False
    return len(kept.rows) < len(kept.names)


def _results(session: Session, kept: KeptBatch, *, looked_at: bool) -> None:
    """Show how far a batch is and its rows; while it runs, again and again."""
    running = background().is_running(kept)
    rows, total = kept.rows, len(kept.names)
    bad = [row for row in rows if row.status is not Status.QUOTED]
    words = f"{len(rows)} of {counted(total, 'plan')}"
    if bad:
        words += f", {len(bad)} without a price"
    st.progress(len(rows) / total, text=words + (" …" if running else ""))
    if problem := background().problem(kept):
        st.error(plain(problem))
    with st.container(horizontal=True, key="many-doing"):
        _doing(kept, running=running, done=len(rows) == total)
        if rows:
            st.download_button(
                "Download results.csv",
                kept.results.read_bytes(),
                file_name="results.csv",
                mime="text/csv",
                key="many-csv",
            )
    if read := [row for row in rows if row.rooms is not None]:
        figures_table([_cells(row, session.units) for row in read], words=("Plan",))
        st.caption(
            "Nobody has looked at these plans yet. Open one to see its doubts, its cautions and "
            "what the label must still confirm before you quote it or anyone sprays."
        )
        _opening(session, kept, [row.file for row in read])
    if bad:
        st.subheader("Without a price")
        st.markdown("\n".join(f"- {plain(_said(row))}" for row in bad))
    if running is not looked_at:
        st.rerun()  # begin or end looking again and again


def _doing(kept: KeptBatch, *, running: bool, done: bool) -> None:
    if running:
        st.button("Stop", on_click=lambda: background().stop(kept), key="many-stop")
        return
    if not done:
        st.button("Go on", on_click=lambda: background().start(kept), key="many-go-on")
    if st.button("Remove this batch", key="many-remove"):
        kept.remove()
        st.rerun()


def _opening(session: Session, kept: KeptBatch, names: list[str]) -> None:
    """Offer to go on with one of the plans as the present work."""
    with st.container(horizontal=True, vertical_alignment="bottom", key="many-opening"):
        name = st.selectbox("Go on with one plan", names, key=f"many-open-{kept.folder.name}")
        begun = st.button("Open it as the present work", key="many-open")
    if begun:
        if _open(session, kept, name):
            st.switch_page(st.Page(plan.show, title="Plan", url_path="plan", default=True))
        st.rerun()


def _open(session: Session, kept: KeptBatch, name: str) -> bool:
    """Open a plan with the book and the choices that it was priced with."""
    try:
        basis, file = kept.basis(), kept.file(name)
    except EstimatorError as error:
        session.problem = str(error)
        return False
    return session.open(lambda work: opened(evolve(work, book=basis.book, job=basis.job), [file]))


def _cells(row: Row, units: Units) -> dict[str, str]:
    return {
        "Plan": row.file,
        "Rooms": f"{row.rooms}",
        "Floor": "" if row.floor is None else shown_area(row.floor, units),
        "Treated": "" if row.treated is None else shown_area(row.treated, units),
        "Solution": "" if row.volume is None else shown_volume(row.volume, units),
        "On site": "" if row.on_site is None else shown_duration(row.on_site),
        "Price": "" if row.price is None else shown_money(row.price),
        "Likely range": ""
        if row.low is None or row.high is None
        else f"{shown_money(row.low)} – {shown_money(row.high)}",
        "Doubts": f"{row.doubts}",
    }


def _said(row: Row) -> str:
    """Return the sentence on why there is no price, the file named in it."""
    return row.says if row.says.startswith(row.file) else f"{row.file}: {row.says}"
