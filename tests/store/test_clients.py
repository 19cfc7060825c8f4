import pytest
from attrs import evolve
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some

from estimator.errors import NotFound, StaleVersion, StoreError
from estimator.store.values import Client, Site

NAMES = [
    "Café Müller",
    "廚房 مستشفى Ελλάδα",
    "=HYPERLINK(1)",
    "+1 @home",
    "O'Brien; DROP TABLE client",
    "50 % _off_",
    "\\back",
    "👩‍🔬 lab",
]


@pytest.mark.parametrize("name", NAMES)
def test_names_in_any_script_and_with_any_marks_come_back_and_are_found(store, name):
    kept = store.clients.save(Client(name=name, contact=name, note=name), after=0)
    store.clients.save(Client(name="Somebody else"), after=0)
    assert store.clients.get(kept.id) == Client(
        id=kept.id, name=name, contact=name, note=name, version=1
    )
    assert store.clients.find(name) == (kept,)
    assert store.clients.find(name.upper()) == (kept,)


@settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(name=some.text(some.characters(), min_size=1).filter(str.strip), note=some.text())
def test_any_text_comes_back(store, name, note):
    kept = store.clients.save(Client(name=name, note=note), after=0)
    assert store.clients.get(kept.id) == kept
    assert (kept.name, kept.note) == (name, note)


def test_searching_knows_no_case_accents_or_width(store):
    kept = store.sites.save(Site(name="École Straße ＡＢＣ", address="4 Mill Lane"), after=0)
    for words in ("ecole", "STRASSE abc", "lane école", ""):
        assert store.sites.find(words) == (kept,)
    for words in ("ecole hill", "%", "_"):
        assert store.sites.find(words) == ()


def test_sites_of_one_client_are_told_from_all(store):
    client = store.clients.save(Client(name="Larkfield health"), after=0)
    own = store.sites.save(Site(name="Clinic", client=client.id), after=0)
    bakery = store.sites.save(Site(name="Bakery"), after=0)
    assert store.sites.find(client=client.id) == (own,)
    assert store.sites.find(client="") == (bakery,)
    assert [site.name for site in store.sites.find()] == ["Bakery", "Clinic"]
    assert [site.name for site in store.sites.find(first=1)] == ["Clinic"]


def test_of_two_who_change_a_text_the_later_is_told_and_both_are_kept(store):
    first = store.clients.save(Client(name="Larkfield health"), after=0)
    theirs = store.clients.save(evolve(first, contact="theirs"), after=1)
    with pytest.raises(StaleVersion, match="somebody else changed it"):
        store.clients.save(evolve(first, contact="mine"), after=1)
    assert store.clients.get(first.id) == theirs

    mine = store.clients.save(evolve(first, contact="mine"), after=theirs.version)
    assert store.clients.texts(first.id) == (mine, theirs, first)


def test_a_new_text_that_is_there_already_and_one_that_is_not_there_are_refused(store):
    first = store.clients.save(Client(name="Larkfield health"), after=0)
    with pytest.raises(StaleVersion):
        store.clients.save(first, after=0)
    with pytest.raises(StaleVersion):
        store.clients.save(Client(id="nothing", name="Nobody"), after=3)


@pytest.mark.parametrize("name", ["", "  \t"])
def test_what_has_no_name_is_one_sentence(store, name):
    with pytest.raises(StoreError, match="it has no name"):
        store.clients.save(Client(name=name), after=0)
    with pytest.raises(StoreError, match="it has no name"):
        store.sites.save(Site(name=name), after=0)


def test_a_site_of_a_client_who_is_not_kept_is_refused(store):
    with pytest.raises(NotFound, match="no such client"):
        store.sites.save(Site(name="Clinic", client="nothing"), after=0)


@pytest.mark.parametrize("name", ["", "nothing"])
def test_what_is_not_kept_is_one_sentence(store, name):
    with pytest.raises(NotFound, match="no such client"):
        store.clients.get(name)
    with pytest.raises(NotFound, match="no such site"):
        store.sites.get(name)
