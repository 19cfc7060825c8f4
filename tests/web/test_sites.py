from pathlib import Path

import pytest
from attrs import evolve
from sessions import quote_of, session_of
from streamlit.testing.v1 import AppTest

from estimator.plan.edits import with_height
from estimator.quantities.language import Language
from estimator.quantities.shown_money import shown_money
from estimator.quote.outcome import Outcome, RoomOutcome
from estimator.store.values import Client, KeptOutcome, Key, Search, Site, Status
from estimator.workflow.archives import exported
from estimator.workflow.offers import keep_quote, work_of
from estimator.workflow.papers import how_sent, recipient_of
from estimator.workflow.quoting import estimate
from estimator.workflow.sketching import sketch_plan
from estimator.workflow.storing import store

APP = Path(__file__).parents[2] / "app.py"


@pytest.fixture
def screen(opened_at) -> AppTest:
    return opened_at("sites")


def said(app: AppTest) -> str:
    kinds = (app.markdown, app.caption, app.success, app.info, app.error, app.get("html"))
    texts = (getattr(one, "value", None) or one.proto.body for kind in kinds for one in kind)
    return "\n".join(texts).replace("\\", "")


def keep_first(app: AppTest, client: str = "Larkfield health", site: str = "Clinic") -> Key:
    """Keep the work on the screen as a quote of a new site of a new client."""
    app.text_input(key="offer-client-name").set_value(client)
    app.text_input(key="offer-site-name").set_value(site)
    app.button(key="keep-quote").click().run()
    assert not app.exception
    assert not app.error
    return session_of(app).kept_as


def tab(job: str) -> AppTest:
    """Open the app in a tab of its own at a job."""
    app = AppTest.from_file(str(APP), default_timeout=30)
    app.query_params["job"] = job
    return app.run()


def higher(app: AppTest, height: float) -> AppTest:
    session = session_of(app)
    session.correct(lambda plan: with_height(plan, plan.rooms[0].id, height))
    return app.run()


def test_work_is_kept_as_a_quote_of_a_new_site_and_listed(screen: AppTest):
    quote = quote_of(screen)
    key = keep_first(screen)

    (row,) = store().quotes.find(Search()).rows
    assert (row.key, row.client_name, row.site_name) == (key, "Larkfield health", "Clinic")
    assert row.total == quote.price.total
    assert "Clinic, Larkfield health" in said(screen)
    assert shown_money(quote.price.total) in said(screen)


def test_a_quote_gains_versions_and_any_of_them_is_opened_again(screen: AppTest):
    key = keep_first(screen)
    first = session_of(screen).work
    higher(screen, 4.5)
    screen.text_input(key="version-note").set_value("higher")
    screen.button(key="keep-version").click().run()
    assert session_of(screen).kept_as == Key(quote=key.quote, number=2)
    assert "2026" in said(screen)
    assert "higher" in said(screen)

    screen.button(key=f"open-{key.quote}-1").click().run()
    assert session_of(screen).work.plan == first.plan
    assert session_of(screen).kept_as == key
    assert session_of(screen).can_undo


def test_a_version_kept_by_somebody_else_meanwhile_is_told_and_both_stay(screen: AppTest):
    key = keep_first(screen)
    work = session_of(screen).work
    theirs = evolve(work, plan=with_height(work.plan, work.plan.rooms[0].id, 2.1))
    keep_quote(store(), theirs, quote_of(screen), quote_id=key.quote, after=1)
    higher(screen, 4.5)
    screen.button(key="keep-version").click().run()

    assert "Somebody else kept version 2 meanwhile" in said(screen)
    assert session_of(screen).kept_as == Key(quote=key.quote, number=3)
    assert work_of(store(), Key(quote=key.quote, number=2)).plan == theirs.plan
    assert work_of(store(), session_of(screen).kept_as).plan == session_of(screen).work.plan


def test_a_page_loaded_again_knows_the_quote_it_was_kept_as(screen: AppTest):
    higher(screen, 4.5)
    key = keep_first(screen)
    higher(screen, 4.6)
    again = tab(session_of(screen).job)
    assert session_of(again).kept_as == key
    session_of(again).undo()
    assert session_of(again).kept_as == key


def test_status_is_told_per_version_and_filters_the_list(screen: AppTest):
    key = keep_first(screen)
    screen.segmented_control(key=f"status-{key.quote}-1").set_value(Status.SENT).run()
    assert store().quotes.version(key).status is Status.SENT

    screen.selectbox(key="quotes-status").set_value(Status.LOST).run()
    assert "None found" in said(screen)
    screen.selectbox(key="quotes-status").set_value(Status.SENT).run()
    assert "Clinic, Larkfield health" in said(screen)


def test_the_list_is_searched_and_turned_over_in_parts(screen: AppTest):
    work, quote = session_of(screen).work, quote_of(screen)
    kept = store()
    for at in range(23):
        site = kept.sites.save(Site(name=f"École {at:02}"), after=0)
        keep_quote(kept, work, quote, site=site.id)
    screen.run()
    assert "1 to 20 of 23 quotes" in said(screen)
    screen.button(key="quotes-on").click().run()
    assert "21 to 23 of 23 quotes" in said(screen)
    screen.text_input(key="quotes-words").set_value("ECOLE 07").run()
    assert "1 quote" in said(screen)
    assert "École 07" in said(screen)


@pytest.mark.parametrize(
    "name", ["=HYPERLINK(1)", "<script>x</script>", "廚房 مستشفى", "O'Brien & <b>", "$x$ _y_"]
)
def test_names_are_shown_as_typed(screen: AppTest, name: str):
    keep_first(screen, client=name, site=name)
    (client,) = store().clients.find()
    assert client.name == name
    assert "<script>" not in "\n".join(one.proto.body for one in screen.get("html"))
    screen.segmented_control(key="sites-view").set_value("Clients and sites").run()
    assert not screen.exception
    assert screen.text_input(key=f"Client-{client.id}-1-name").value == name


def test_a_client_without_a_name_is_one_sentence_and_nothing_is_half_kept(screen: AppTest):
    screen.text_input(key="offer-client-name").set_value("Larkfield health")
    screen.text_input(key="offer-site-name").set_value("  ")
    screen.button(key="keep-quote").click().run()
    assert "it has no name" in screen.error[0].value.replace("\\", "")
    assert store().clients.find() == ()
    assert store().quotes.find(Search()).count == 0


def test_a_text_is_corrected_and_an_earlier_one_taken_back(screen: AppTest):
    client = store().clients.save(Client(name="Larkfield health"), after=0)
    screen.segmented_control(key="sites-view").set_value("Clients and sites").run()
    screen.text_area(key=f"Client-{client.id}-1-contact").set_value("Reception")
    screen.button(key=f"Client-{client.id}-1-save").click().run()
    assert store().clients.get(client.id).contact == "Reception"

    screen.button(key=f"Client-{client.id}-2-take-1").click().run()
    assert store().clients.get(client.id).contact == ""
    assert len(store().clients.texts(client.id)) == 3


def test_of_two_who_correct_one_text_the_later_is_told_and_both_are_kept(screen: AppTest):
    client = store().clients.save(Client(name="Larkfield health"), after=0)
    screen.segmented_control(key="sites-view").set_value("Clients and sites").run()
    store().clients.save(evolve(client, contact="Theirs"), after=1)
    screen.text_area(key=f"Client-{client.id}-1-contact").set_value("Mine")
    screen.button(key=f"Client-{client.id}-1-save").click().run()

    assert "Somebody else changed this meanwhile" in said(screen)
    assert [text.contact for text in store().clients.texts(client.id)] == ["Mine", "Theirs", ""]


def test_another_plan_is_no_version_of_the_quote_and_going_back_is_again(screen: AppTest):
    key = keep_first(screen)
    session = session_of(screen)
    session.open(lambda work: evolve(work, plan=sketch_plan("Hall 5 x 2 m")))
    screen.run()
    assert session.kept_as is None
    assert "keep-version" not in {button.key for button in screen.button}
    session.undo()
    screen.run()
    assert session.kept_as == key


def test_sites_of_nobodys_are_corrected_too(screen: AppTest):
    site = store().sites.save(Site(name="Bakery"), after=0)
    screen.segmented_control(key="sites-view").set_value("Clients and sites").run()
    screen.text_area(key=f"Site-{site.id}-1-address").set_value("4 Mill Lane")
    screen.button(key=f"Site-{site.id}-1-save").click().run()
    assert store().sites.get(site.id).address == "4 Mill Lane"


def test_an_archive_is_brought_in_and_a_bad_one_is_one_sentence(screen: AppTest):
    key = keep_first(screen)
    archive = exported(store())
    screen.file_uploader(key="import-0").upload("all.zip", archive).run()
    assert "Nothing was new." in said(screen)
    screen.file_uploader(key="import-1").upload("all.zip", archive[:-99]).run()
    assert not screen.exception
    assert "the archive was damaged" in said(screen)
    assert store().quotes.find(Search()).rows[0].key == key


@pytest.fixture
def anywhere(empty_database, monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the app keep everything in each kind of database in turn."""
    url = empty_database.render_as_string(hide_password=False)
    if empty_database.get_backend_name() == "sqlite":
        Path(empty_database.database).parent.mkdir(exist_ok=True)
    monkeypatch.setenv("DATABASE_URL", url)


@pytest.mark.usefixtures("anywhere")
def test_the_same_is_done_on_every_database(opened_at):
    screen = opened_at("sites")
    key = keep_first(screen, client="=Larkfield 廚房")
    higher(screen, 4.5)
    screen.button(key="keep-version").click().run()
    screen.segmented_control(key=f"status-{key.quote}-2").set_value(Status.ACCEPTED).run()
    screen.text_input(key="quotes-words").set_value("廚房").run()
    screen.button(key=f"open-{key.quote}-1").click().run()
    assert not screen.exception
    assert not screen.error
    again = tab(session_of(higher(screen, 4.7)).job)
    assert session_of(again).kept_as == key

    (row,) = store().quotes.find(Search(statuses=(Status.ACCEPTED,))).rows
    assert (row.versions, row.client_name) == (2, "=Larkfield 廚房")
    store().close()


def test_a_store_that_cannot_be_reached_is_one_sentence(
    screen: AppTest, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setenv("DATABASE_URL", "postgresql://nobody@127.0.0.1:1/nothing")
    screen.run()
    assert not screen.exception
    assert "it cannot be opened" in screen.error[0].value.replace("\\", "")


def versions_shown(app: AppTest) -> str:
    return next(one.value for one in app.markdown if "Version 1" in one.value).replace("\\", "")


def test_a_status_told_by_mistake_is_taken_back_by_another_tap(screen: AppTest):
    key = keep_first(screen)
    status = f"status-{key.quote}-1"
    screen.segmented_control(key=status).set_value(Status.SENT).run()
    assert how_sent(store(), key) is not None
    screen.segmented_control(key=status).set_value(Status.DRAFT).run()
    assert store().quotes.version(key).status is Status.DRAFT
    assert how_sent(store(), key) is None
    assert not screen.exception


def test_deposit_and_validity_are_shown_and_a_sent_quote_that_expired_stands_out(screen: AppTest):
    work, kept = session_of(screen).work, store()
    site = kept.sites.save(Site(name="Bakery"), after=0)
    old = estimate(work.plan, book=work.book, job=work.job, date="2020-01-02")
    key = keep_quote(kept, work, old, site=site.id)
    screen.run()
    screen.button(key=f"quote-{key.quote}").click().run()
    assert f"deposit {shown_money(old.terms.deposit)}" in versions_shown(screen)
    assert f"expired on {old.terms.valid_until}" in versions_shown(screen)
    assert "expired</span>" not in said(screen), "a draft cannot expire"
    screen.segmented_control(key=f"status-{key.quote}-1").set_value(Status.SENT).run()
    assert '<span class="sent expired">Sent, expired</span>' in said(screen)


def test_a_link_shows_a_quote_wherever_the_list_would_have_it(screen: AppTest):
    key = keep_first(screen)
    screen.text_input(key="quotes-words").set_value("nowhere").run()
    assert "None found." in said(screen)
    screen.query_params["quote"] = key.quote
    screen.run()
    assert "Version 1" in versions_shown(screen)
    assert "quote" not in screen.query_params

    screen.query_params["quote"] = "none"
    screen.run()
    assert not screen.exception


def test_the_visits_of_a_quote_are_shown_with_it(screen: AppTest):
    key = keep_first(screen)
    room = quote_of(screen).schedule.rooms[0]
    row = RoomOutcome(room=room.room, use=room.use, volume=0.003, time=600, passes=1, note="")
    visit = Outcome(visited="2026-12-02", crew=2, on_site=5400, rows=(row,), note="=Door *shut*")
    store().outcomes.save(KeptOutcome(key=key, outcome=visit), after=0)
    screen.run()
    (line,) = [text for text in said(screen).splitlines() if "Visit of" in text]
    assert line.startswith("Visit of 2026-12-02 · 2 people · 1 h 30 min on site, ")
    assert "3 L sprayed, " in line
    assert line.endswith("=Door *shut*")


def test_a_client_has_an_address_and_a_language_for_its_papers(screen: AppTest):
    keep_first(screen)
    (client,) = store().clients.find()
    screen.segmented_control(key="sites-view").set_value("Clients and sites").run()
    screen.text_area(key=f"Client-{client.id}-1-address").set_value("14 Mill Lane\nLarkfield")
    screen.selectbox(key=f"Client-{client.id}-1-language").set_value(Language.ES)
    screen.button(key=f"Client-{client.id}-1-save").click().run()
    assert store().clients.get(client.id).language is Language.ES
    assert not screen.exception


def test_the_address_typed_with_a_new_client_is_kept(screen: AppTest):
    screen.text_area(key="offer-client-address").set_value("14 Mill Lane")
    screen.text_area(key="offer-site-address").set_value("2 Bridge Road")
    key = keep_first(screen)
    told = recipient_of(store(), key)
    assert (told.address, told.place) == (("14 Mill Lane",), ("2 Bridge Road",))


def test_an_empty_list_leads_to_the_quote_on_the_screen(screen: AppTest):
    assert "No quote is kept yet." in said(screen)
    assert [one.proto.page for one in screen.get("page_link") if one.proto.page == "quote"]
