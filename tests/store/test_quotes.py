from decimal import Decimal

import pytest
from attrs import evolve

from estimator.errors import NotFound
from estimator.estimation.figures import figures_of
from estimator.price.money import Money
from estimator.store.quotes import Draft
from estimator.store.values import Client, Key, Order, Search, Site, Status


@pytest.fixture(scope="session")
def figures(clinic, quote):
    return figures_of(clinic.plan, quote, clinic.book, clinic.job)


@pytest.fixture
def several(store, figures):
    """Keep quotes of several sites with other titles, days and totals."""

    def kept(*rows):
        keys = []
        for title, date, total in rows:
            client = store.clients.save(Client(name=f"Client of {title}"), after=0)
            site = store.sites.save(
                Site(name=f"Site of {title}", address="Mill Lane", client=client.id), after=0
            )
            other = evolve(figures, title=title, date=date, total=Money(Decimal(total), "USD"))
            draft = Draft(figures=other, record="{}", files={"plans/a.json": lambda: b"{}"})
            keys.append(store.quotes.save(draft, site=site.id))
        return keys

    return kept


ROWS = (
    ("Clinic", "2026-01-02", "90.00"),
    ("École", "2026-01-03", "1000.10"),
    ("bakery", "2025-12-31", "200.00"),
)


def titles(store, **search):
    return [row.title for row in store.quotes.find(Search(**search)).rows]


@pytest.mark.parametrize(
    ("order", "wanted"),
    [
        (Order.DATE, ["bakery", "Clinic", "École"]),
        (Order.TITLE, ["bakery", "Clinic", "École"]),
        (Order.TOTAL, ["Clinic", "bakery", "École"]),
    ],
)
def test_the_list_is_sorted_either_way(store, several, order, wanted):
    several(*ROWS)
    assert titles(store, by=order, rising=True) == wanted
    assert titles(store, by=order) == wanted[::-1]


def test_the_list_comes_in_parts_and_tells_how_long_it_is(store, several):
    several(*ROWS)
    found = store.quotes.find(Search(first=1, most=1, by=Order.TITLE, rising=True))
    assert (found.count, [row.title for row in found.rows]) == (3, ["Clinic"])
    assert store.quotes.find(Search(first=9)).count == 3


def test_every_word_must_occur_somewhere(store, several):
    several(*ROWS)
    assert titles(store, words="ECOLE") == ["École"]
    assert titles(store, words="mill client BAKERY site") == ["bakery"]
    assert titles(store, words="bakery clinic") == []
    assert titles(store, words="%") == []


def test_the_list_is_narrowed_to_a_client_a_site_or_statuses(store, several):
    clinic, school, _ = several(*ROWS)
    row = store.quotes.listed(clinic.quote)
    assert titles(store, client=row.client) == ["Clinic"]
    assert titles(store, site=row.site) == ["Clinic"]
    store.quotes.set_status(school, Status.SENT)
    assert titles(store, statuses=(Status.SENT,)) == ["École"]
    assert len(titles(store, statuses=(Status.SENT, Status.DRAFT))) == 3


def test_a_quote_is_listed_as_its_latest_version(store, several, figures):
    (key,) = several(ROWS[0])
    dearer = evolve(figures, title="Clinic again", total=Money(Decimal("0.015"), "BHD"))
    draft = Draft(figures=dearer, record="{}", files={})
    with pytest.raises(NotFound):
        store.quotes.save(draft, quote="nothing", after=1)
    store.quotes.set_status(key, Status.SENT)
    second = store.quotes.save(draft, quote=key.quote, after=1)

    row = store.quotes.listed(key.quote)
    assert (row.key, row.versions, row.title) == (second, 2, "Clinic again")
    assert (row.status, row.total) == (Status.DRAFT, Money(Decimal("0.015"), "BHD"))
    assert [version.status for version in store.quotes.versions(key.quote)] == [
        Status.DRAFT,
        Status.SENT,
    ]
    assert titles(store, words="again") == ["Clinic again"]


def test_a_quote_of_nobodys_site_is_listed_without_a_client(store, figures):
    site = store.sites.save(Site(name="Bakery"), after=0)
    store.quotes.save(Draft(figures=figures, record="{}", files={}), site=site.id)
    (row,) = store.quotes.find(Search(words="bakery")).rows
    assert (row.client, row.client_name) == ("", "")


def test_many_figures_come_at_once(store, several, figures):
    keys = several(*ROWS)
    missing = [Key(quote=f"nothing-{at}", number=1) for at in range(900)]
    found = store.quotes.figures([*missing, *keys])
    assert found.keys() == set(keys)
    assert found[keys[0]] == evolve(
        figures, title="Clinic", date="2026-01-02", total=Money(Decimal("90.00"), "USD")
    )


def test_a_quote_that_is_not_kept_is_one_sentence(store):
    nothing = Key(quote="nothing", number=1)
    for asked in (
        lambda: store.quotes.versions("nothing"),
        lambda: store.quotes.version(nothing),
        lambda: store.quotes.listed(""),
        lambda: store.quotes.record(nothing),
        lambda: store.quotes.set_status(nothing, Status.SENT),
    ):
        with pytest.raises(NotFound, match="no such quote is kept"):
            asked()
