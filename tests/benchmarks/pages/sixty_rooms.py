"""The app with sixty rooms on a picture already on the table."""

import streamlit as st
from sixty import picture, plan

from estimator.quantities import Units
from estimator.web.main import run
from estimator.web.state import Session, Work
from estimator.workflow.measuring import standard_book
from estimator.workflow.pages import File, Page
from estimator.workflow.quoting import usual_job

if "session" not in st.session_state:
    book = standard_book()
    page = Page(file=File(name="sixty.png", content=picture()))
    work = Work(plan=plan(), book=book, job=usual_job(book), pages=(page,))
    st.session_state["session"] = Session(work=work, units=Units.METRIC)
run()
