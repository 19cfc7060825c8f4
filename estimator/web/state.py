"""The session: what the user has made, step by step, and how they like to see it."""

from collections.abc import Callable, Iterable
from typing import Any, TypeVar, cast

import streamlit as st
from attrs import Factory, define, evolve

from estimator.errors import EstimatorError
from estimator.plan.plan import Plan
from estimator.quantities import Units
from estimator.quantities.in_units import in_units
from estimator.quote.quote import Quote
from estimator.store.values import Key
from estimator.workflow.firm_book import usable_book
from estimator.workflow.preferences import preferences, remember
from estimator.workflow.quoting import estimate, usual_job
from estimator.workflow.samples import samples
from estimator.workflow.work import History, Work

Made = TypeVar("Made")

FIRST_SAMPLE = "larkfield-family-home"


@define(kw_only=True, eq=False)
class Session:
    """All that one browser tab knows.

    Parameters
    ----------
    problem
        The sentence that says why the last change was refused.
    book_problem
        The sentence that says what is wrong with the firm's own book.
    edition
        Counts what tables and fields of the screen must start anew after.
    step
        Counts changes, made, undone or made again.
    scene
        Counts changes after which open menus close.
    chosen
        Ids of the rooms that are chosen, in the drawing and in the table alike.
    choices
        Counts choices made elsewhere than in the table.
    on_call
        Whether a client may be watching.
    job
        Name of the job it is kept as; empty until it is kept.
    revision
        The revision it was last kept or brought back at.
    kept
        The work that is kept, or need not be.
    """

    work: Work
    units: Units
    on_call: bool = False
    job: str = ""
    revision: int = 0
    kept: Work | None = None
    problem: str = ""
    book_problem: str = ""
    edition: int = 0
    step: int = 0
    scene: int = 0
    chosen: tuple[str, ...] = ()
    choices: int = 0
    _past: list[Work] = Factory(list)
    _future: list[Work] = Factory(list)
    _kept_as: tuple[int, Key | None] = (0, None)
    _made_for: Work | None = None
    _made: dict[object, object] = Factory(dict)

    def change(self, change: Callable[[Work], Work], *, anew: bool = True) -> bool:
        """Make a change, or keep everything and say why not; return whether it was made.

        Parameters
        ----------
        anew
            Whether tables on the screen must start anew to show the change.
        """
        try:
            changed = change(self.work)
        except EstimatorError as error:
            self.problem = str(error)
            self.edition += 1
            return False
        self._past.append(self.work)
        self._future.clear()
        self._take(changed)
        self.edition += anew
        self.scene += anew
        self.step += 1
        return True

    def open(self, opening: Callable[[Work], Work]) -> bool:
        """Open another plan, or keep everything and say why not."""
        document = self.step + 1
        opened = self.change(lambda work: evolve(opening(work), document=document))
        if opened:
            self.chosen = ()
            self.job, self.revision = "", 0
        return opened

    def go_on(self, history: History) -> None:
        """Go on with other work, with the steps there and back that were made in it."""
        before, document = history.now.document, self.step + 1

        def here(work: Work) -> Work:
            return evolve(work, document=document) if work.document == before else work

        self.work = here(history.now)
        self._past = [here(work) for work in history.past]
        self._future = [here(work) for work in history.future]
        self.kept, self.chosen = self.work, ()
        self.edition += 1
        self.scene += 1
        self.step += 1

    @property
    def history(self) -> History:
        """The work with the steps there and back."""
        return History(now=self.work, past=tuple(self._past), future=tuple(self._future))

    @property
    def kept_as(self) -> Key | None:
        """The version of a quote that this plan was last kept as, or opened from."""
        document, key = self._kept_as
        return key if document == self.work.document else None

    @kept_as.setter
    def kept_as(self, key: Key | None) -> None:
        self._kept_as = self.work.document, key

    def choose(self, rooms: Iterable[str]) -> None:
        """Choose rooms; the table of rooms starts anew to show it."""
        chosen = tuple(rooms)
        if chosen != self.chosen:
            self.chosen = chosen
            self.choices += 1

    def correct(self, correction: Callable[[Plan], Plan], *, anew: bool = True) -> bool:
        """Correct the plan, or keep everything and say why not."""
        return self.change(lambda work: evolve(work, plan=correction(work.plan)), anew=anew)

    def set_job(self, **choices: Any) -> bool:
        """Choose something else for the visit, or keep everything and say why not."""
        return self.change(lambda work: evolve(work, job=evolve(work.job, **choices)), anew=False)

    def undo(self) -> None:
        """Go one change back."""
        self._step(self._past, self._future)

    def redo(self) -> None:
        """Make the change last undone again."""
        self._step(self._future, self._past)

    @property
    def can_undo(self) -> bool:
        """Whether there is a change to go back on."""
        return bool(self._past)

    @property
    def can_redo(self) -> bool:
        """Whether a change was undone."""
        return bool(self._future)

    @property
    def quote(self) -> Quote | None:
        """The quote for the work as it stands; None when it cannot be quoted yet."""
        outcome = self._outcome
        return outcome if isinstance(outcome, Quote) else None

    @property
    def why_no_quote(self) -> str:
        """The sentence that says what keeps the work from being quoted."""
        outcome = self._outcome
        return outcome if isinstance(outcome, str) else ""

    def in_units(self, sentence: str) -> str:
        """Return a sentence of the reckoning with its measures in the units of the screen."""
        return in_units(sentence, self.units, [room.name for room in self.work.plan.rooms])

    def once(self, name: object, make: Callable[[], Made]) -> Made:
        """Return what is made from the work, made again only after the work has changed."""
        if self._made_for is not self.work:
            self._made_for, self._made = self.work, {}
        if name not in self._made:
            self._made[name] = make()
        return cast(Made, self._made[name])

    @property
    def _outcome(self) -> Quote | str:
        return self.once("quote", self._reckon)

    def _reckon(self) -> Quote | str:
        try:
            return estimate(self.work.plan, book=self.work.book, job=self.work.job)
        except EstimatorError as error:
            return str(error)

    def _take(self, work: Work) -> None:
        self.work = work
        there = {room.id for room in work.plan.rooms}
        self.chosen = tuple(room for room in self.chosen if room in there)

    def _step(self, here: list[Work], there: list[Work]) -> None:
        if here:
            there.append(self.work)
            self._take(here.pop())
            self.edition += 1
            self.scene += 1
            self.step += 1


def current() -> Session:
    """Return the session of this browser tab, opened on a sample already worked out."""
    if "session" not in st.session_state:
        st.session_state["session"] = _first()
    return cast(Session, st.session_state["session"])


def switch_units(units: Units) -> None:
    """Show everything in other units, and remember the choice."""
    session = current()
    session.units = units
    session.edition += 1
    try:
        remember(evolve(preferences(), units=units))
    except EstimatorError as error:
        session.problem = str(error)


def _first() -> Session:
    book, problem = usable_book()
    shown = next(sample for sample in samples() if sample.picture.stem == FIRST_SAMPLE)
    work = Work(plan=shown.truth(), book=book, job=usual_job(book), pages=(shown.page,))
    return Session(work=work, units=preferences().units, kept=work, book_problem=problem)
