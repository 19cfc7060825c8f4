"""Whoever makes papers is told what they cannot write."""

import pytest
from attrs import evolve
from sessions import quote_of, session_of

from estimator.store.values import Client, Site
from estimator.workflow.offers import keep_quote
from estimator.workflow.storing import store


@pytest.fixture
def screen(opened_at):
    return opened_at("quote")


def _told(app):
    assert not app.exception
    return [one.value for one in app.warning if "no letters" in one.value]


def _kept(screen, site):
    client = store().clients.save(Client(name="诊所"), after=0)
    place = store().sites.save(Site(name=site, client=client.id), after=0)
    return keep_quote(store(), session_of(screen).work, quote_of(screen), site=place.id)


@pytest.mark.parametrize(("title", "times"), [("诊所 คลินิก", 0), ("रसोई 1", 1)])
def test_letters_that_papers_lack_are_told_once_beside_them(screen, title, times):
    session = session_of(screen)
    session.work = evolve(session.work, plan=evolve(session.work.plan, title=title))

    told = _told(screen.run())

    assert len(told) == times
    assert all(f"“{title}” and show ? there" in sentence for sentence in told)


@pytest.mark.parametrize(("site", "times"), [("ครัว", 0), ("रसोई", 1)])
def test_they_are_told_where_kept_papers_are_taken(screen, opened_at, site, times):
    key = _kept(screen, site)
    app = opened_at("sites")
    app.query_params["quote"] = key.quote

    assert len(_told(app.run())) == times


@pytest.mark.parametrize(("site", "times"), [("주방", 0), ("रसोई", 1)])
def test_they_are_told_where_one_document_of_several_quotes_is_made(screen, opened_at, site, times):
    _kept(screen, site)
    _kept(screen, "Home")
    app = opened_at("compare")
    next(one for one in app.button if one.label == "Make it").click().run()

    assert len(app.get("download_button")) == 1
    assert len(_told(app)) == times
