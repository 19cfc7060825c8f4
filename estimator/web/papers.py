"""The language and size of papers for clients, chosen once and remembered."""

from typing import cast

import streamlit as st
from attrs import evolve

from estimator.documents.paper import Paper, usual_paper
from estimator.errors import EstimatorError
from estimator.quantities.language import Language
from estimator.web.state import Session
from estimator.workflow.preferences import Preferences, preferences, remember

LANGUAGES = {Language.EN: "English", Language.FR: "Français", Language.ES: "Español"}
_KEPT = "papers"


def language_of_papers() -> Language:
    """Return the language that papers for clients are written in."""
    return _chosen().language


def paper_of(session: Session) -> Paper:
    """Return the paper chosen, or the usual one of the session's units."""
    return _chosen().paper or usual_paper(session.units)


def paper_choices(session: Session) -> None:
    """Offer the language and the size of papers."""
    with st.container(key="paper-choices", horizontal=True, gap="small"):
        language = st.selectbox(
            "Language of the papers",
            list(LANGUAGES),
            index=list(LANGUAGES).index(language_of_papers()),
            format_func=LANGUAGES.__getitem__,
            key="paper-language",
        )
        paper = st.selectbox(
            "Paper",
            list(Paper),
            index=list(Paper).index(paper_of(session)),
            format_func=str,
            key=f"paper-size-{session.units.value}",
        )
    if language is not language_of_papers() or paper is not paper_of(session):
        usual = paper is usual_paper(session.units)
        _choose(session, evolve(_chosen(), language=language, paper=None if usual else paper))


def _chosen() -> Preferences:
    if _KEPT not in st.session_state:
        st.session_state[_KEPT] = preferences()
    return cast(Preferences, st.session_state[_KEPT])


def _choose(session: Session, chosen: Preferences) -> None:
    st.session_state[_KEPT] = chosen
    try:
        remember(evolve(chosen, units=session.units))
    except EstimatorError as error:
        session.problem = str(error)
