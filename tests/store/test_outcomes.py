import pytest
from attrs import evolve

from estimator.errors import NotFound, StaleVersion
from estimator.quote.outcome import Outcome, RoomOutcome
from estimator.store.values import KeptOutcome, Key

ROW = RoomOutcome(room="room-1", use="kitchen", volume=0.002, passes=2, note="廚房 =1")
VISIT = Outcome(visited="2026-11-26", crew=2, on_site=3600.0, rows=(ROW,), note="late")


def test_an_outcome_comes_back_exactly(store, fill):
    key = fill(store)
    kept = store.outcomes.save(KeptOutcome(key=key, outcome=VISIT), after=0)
    assert kept in store.outcomes.of(key.quote)
    assert kept.outcome == VISIT
    assert kept.version == 1


def test_several_visits_are_listed_the_oldest_first(store, fill):
    key = fill(store)
    for day in ("2026-12-24", "2026-10-01"):
        store.outcomes.save(KeptOutcome(key=key, outcome=evolve(VISIT, visited=day)), after=0)
    days = ["2026-10-01", "2026-11-26", "2026-12-24"]
    assert [one.outcome.visited for one in store.outcomes.all()] == days
    assert store.outcomes.of("nothing") == ()


def test_of_two_who_correct_an_outcome_the_later_is_told(store, fill):
    key = fill(store)
    kept = store.outcomes.save(KeptOutcome(key=key, outcome=VISIT), after=0)
    theirs = evolve(kept, outcome=evolve(VISIT, crew=3))
    store.outcomes.save(theirs, after=1)
    with pytest.raises(StaleVersion):
        store.outcomes.save(evolve(kept, outcome=evolve(VISIT, crew=4)), after=1)
    again = store.outcomes.save(evolve(kept, outcome=evolve(VISIT, crew=4)), after=2)
    assert (again.version, again.outcome.crew) == (3, 4)
    assert len(store.outcomes.of(key.quote)) == 2


def test_an_outcome_of_no_quote_is_refused(store):
    with pytest.raises(NotFound, match="no such quote"):
        store.outcomes.save(KeptOutcome(key=Key(quote="nothing", number=1), outcome=VISIT), after=0)
