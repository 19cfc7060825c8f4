"""The language and size of papers for clients, chosen once and remembered."""

from typing import cast

import streamlit as st
from attrs import evolve

from estimator.documents.paper import Paper, usual_paper
from estimator.errors import EstimatorError
from estimator.quantities.language import Language
from estimator.store.values import Key
from estimator.web.state import Session
from estimator.workflow.papers import Look, language_of_client
from estimator.workflow.preferences import Preferences, preferences, remember
from estimator.workflow.storing import store

LANGUAGES = {Language.EN: "English", Language.FR: "Français", Language.ES: "Español"}
_KEPT, _FOR = "papers", "papers-for"


def language_of_papers() -> Language:
    """Return the language that papers for clients are written in."""
    return _chosen().language


def language_for(session: Session) -> Language:
    """Return the language of papers for the work on the screen: its client's, unless chosen."""
    key = session.kept_as
    if key is None:
        return language_of_papers()
    return _chosen_for().get(key.quote) or _of_client(session, key) or language_of_papers()


def look_for(session: Session, key: Key) -> Look:
    """Return how a kept quote is written: in its client's language, on the usual paper."""
    language = _chosen_for().get(key.quote) or _of_client(session, key) or language_of_papers()
    return Look(units=session.units, language=language, paper=paper_of(session))


def paper_of(session: Session) -> Paper:
    """Return the paper chosen, or the usual one of the session's units."""
    return _chosen().paper or usual_paper(session.units)


def paper_choices(session: Session, *, of_work: bool = False) -> None:
    """Offer the language and the size of papers.

    Parameters
    ----------
    of_work
        Whether the language is chosen for the work on the screen alone, where it has a client.
    """
    key = session.kept_as if of_work else None
    now = language_for(session) if key else language_of_papers()
    with st.container(key="paper-choices", horizontal=True, gap="small"):
        language = st.selectbox(
            "Language of the papers",
            list(LANGUAGES),
            index=list(LANGUAGES).index(now),
            format_func=LANGUAGES.__getitem__,
            key=f"paper-language-{key.quote}" if key else "paper-language",
        )
        paper = st.selectbox(
            "Paper",
            list(Paper),
            index=list(Paper).index(paper_of(session)),
            format_func=str,
            key=f"paper-size-{session.units.value}",
        )
    if key and language is not now:
        _chosen_for()[key.quote] = language
    general = language_of_papers() if key else language
    if general is not language_of_papers() or paper is not paper_of(session):
        usual = paper is usual_paper(session.units)
        _choose(session, evolve(_chosen(), language=general, paper=None if usual else paper))


def _chosen_for() -> dict[str, Language]:
    """Return the languages chosen for single quotes, by their ids."""
    return cast(dict[str, Language], st.session_state.setdefault(_FOR, {}))


def _of_client(session: Session, key: Key) -> Language | None:
    try:
        return language_of_client(store(), key)
    except EstimatorError as error:
        session.problem = str(error)
        return None


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
