"""Ask next: the questions that narrow the price most, each answered where it stands."""

from collections.abc import Sequence

import streamlit as st

from estimator.quote.question import OF_THE_SITE, Question
from estimator.quote.quote import Quote
from estimator.web.state import Session
from estimator.web.wording import plain
from estimator.workflow.answering import answered, asked_for, choices, example

MOST_SHOWN = 3
LEAST_SHOWN = 0.05
"""What narrows the price by less, in its currency, is not worth a question."""

_FEW = 4


def asked(quote: Quote, *, of_the_site: bool = False) -> tuple[Question, ...]:
    """Return the questions worth asking, or those of them that a client can answer."""
    return tuple(
        question
        for question in quote.questions
        if float(question.narrows.amount) >= LEAST_SHOWN
        and (not of_the_site or question.matter in OF_THE_SITE)
    )[:MOST_SHOWN]


def ask_next(session: Session, questions: Sequence[Question]) -> None:
    """Show questions with what their answers are worth, and take the answers."""
    for number, question in enumerate(questions):
        with st.container(key=f"ask-{number}", gap="xxsmall"):
            worth = question.narrows.amount
            shown = f"± {worth:,.0f}" if worth >= 1 else "less than ± 1"
            st.markdown(f"**{plain(question.says)}** narrows the price by {shown}")
            _answer(session, question)


def _answer(session: Session, question: Question) -> None:
    about = question.rooms[:1] or (question.opening or question.storey,)
    key = f"answer-{question.matter}-{about[0]}-{session.edition}"

    def take() -> None:
        said = st.session_state[key]
        if said:
            session.change(lambda work: answered(work, question, str(said), session.units))

    offered = choices(question, session.work.book)
    label = plain(session.in_units(asked_for(question, session.work.plan)))
    if not offered:
        st.text_input(
            label,
            key=key,
            on_change=take,
            placeholder=example(question, session.units),
            label_visibility="visible" if label != plain(question.says) else "collapsed",
        )
    elif len(offered) > _FEW:
        st.selectbox(
            label,
            offered,
            index=None,
            placeholder="Choose",
            key=key,
            on_change=take,
            label_visibility="collapsed",
        )
    else:
        st.pills(label, offered, key=key, on_change=take, label_visibility="collapsed")
