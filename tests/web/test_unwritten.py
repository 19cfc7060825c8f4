"""Whoever makes papers is told what they cannot write."""

from attrs import evolve
from sessions import session_of


def test_letters_that_papers_lack_are_told_once_beside_them(opened_at):
    app = opened_at("quote")
    session = session_of(app)

    def told(title):
        session.work = evolve(session.work, plan=evolve(session.work.plan, title=title))
        app.run()
        assert not app.exception
        return [one.value for one in app.warning if "no letters" in one.value]

    assert told("诊所 คลินิก") == []
    (sentence,) = told("रसोई 1")
    assert "“रसोई 1” and show ? there" in sentence
