import pypdfium2
import pytest
from attrs import evolve
from offered import higher, quoted

from estimator.catalogue.loader import packaged_book
from estimator.documents.paper import Paper
from estimator.documents.quote_pdf import quote_pdf
from estimator.errors import DocumentError
from estimator.quantities import Units
from estimator.quantities.language import Language
from estimator.quote.firm import Firm
from estimator.store.tables import VersionRow
from estimator.store.values import Client, Key, Search, Site, Status
from estimator.workflow.offers import is_version, keep_quote
from estimator.workflow.papers import Look, draft_for, how_sent, kept_paper, recipient_of
from estimator.workflow.papers import tell_status as tell
from estimator.workflow.quoting import usual_job
from estimator.workflow.sketching import sketch_plan
from estimator.workflow.work import Work

BOOK = evolve(packaged_book(), firm=Firm(name="Oak Street Cleaning"))
LOOK = Look(units=Units.US, language=Language.FR, paper=Paper.LETTER)
OTHER = Look(units=Units.METRIC, language=Language.EN, paper=Paper.A4)


@pytest.fixture(scope="module")
def hall():
    plan = evolve(sketch_plan("hall 5 x 2 m"), title="Larkfield hall")
    return Work(plan=plan, book=BOOK, job=usual_job(BOOK))


@pytest.fixture
def key(store, hall):
    client = store.clients.save(
        Client(name="=Larkfield Trust", address="14 Mill Lane\n\n Larkfield "), after=0
    )
    site = store.sites.save(Site(name="Hall", client=client.id, address="2 Bridge Road"), after=0)
    return keep_quote(store, hall, quoted(hall), site=site.id)


def text_of(pdf):
    document = pypdfium2.PdfDocument(pdf)
    try:
        return " ".join(page.get_textpage().get_text_range() for page in document)
    finally:
        document.close()


def test_a_version_is_addressed_to_its_client_and_site(store, key):
    told = recipient_of(store, key)
    assert (told.client, told.address) == ("=Larkfield Trust", ("14 Mill Lane", "Larkfield"))
    assert (told.site, told.place) == ("Hall", ("2 Bridge Road",))
    assert (told.number, told.version) == (key.quote[:8].upper(), 1)
    assert draft_for(store, key) == evolve(told, version=0)


def test_its_paper_is_that_of_the_work_it_was_kept_from(store, hall, key):
    made = quote_pdf(
        hall.plan,
        quoted(hall),
        LOOK.units,
        firm=BOOK.firm,
        language=LOOK.language,
        paper=LOOK.paper,
        recipient=recipient_of(store, key),
    )
    assert kept_paper(store, key, LOOK) == made
    assert "=Larkfield Trust" in text_of(made)


def test_what_was_sent_stays_as_it_was_sent(store, key):
    sent = kept_paper(store, key, LOOK)
    tell(store, key, Status.SENT, LOOK)
    (client,) = store.clients.find()
    store.clients.save(evolve(client, name="Another name"), after=client.version)
    tell(store, key, Status.ACCEPTED, OTHER)
    assert kept_paper(store, key, OTHER) == sent

    tell(store, key, Status.DRAFT, OTHER)
    assert how_sent(store, key) is None
    assert "Another name" in text_of(kept_paper(store, key, OTHER))


def test_a_version_of_other_rules_is_refused_in_a_sentence(store, key):
    with store.database.writing() as session:
        session.get(VersionRow, (key.quote, key.number)).total += 1
    with pytest.raises(DocumentError, match="made by other rules"):
        kept_paper(store, key, LOOK)


def test_only_the_work_as_it_was_kept_bears_the_number_of_a_version(store, hall, key):
    date = quoted(hall).date
    assert is_version(store, key, hall, date)
    assert is_version(store, key, evolve(hall, document=hall.document + 3), date)
    assert not is_version(store, key, hall, "2026-12-01")
    assert not is_version(store, key, higher(hall, 4.5), date)
    assert not is_version(store, key, evolve(hall, job=evolve(hall.job, crew=3)), date)


def test_a_quote_is_found_by_its_number(store, key):
    assert store.quotes.find(Search(words=key.called)).rows[0].key == key
    assert not store.quotes.find(Search(words=key.called[1:])).rows
    assert not store.quotes.find(Search(words="ffffffffffffffff0")).rows


def test_a_client_says_in_which_language_papers_for_them_are_written(store):
    client = store.clients.save(Client(name="Larkfield", language=Language.ES), after=0)
    assert store.clients.get(client.id).language is Language.ES


def test_a_version_that_is_not_kept_was_not_sent(store):
    assert how_sent(store, Key(quote="none", number=1)) is None
