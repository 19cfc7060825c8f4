from io import BytesIO

import pytest
from PIL import Image
from sessions import session_of
from streamlit.testing.v1 import AppTest

from estimator.workflow.firm_book import firm_book, firm_folder


@pytest.fixture
def screen(opened_at) -> AppTest:
    app = opened_at("firm")
    assert not app.exception
    return app


def _picture(size=(40, 20)):
    written = BytesIO()
    Image.new("RGB", size, "#7a1f3d").save(written, "PNG")
    return written.getvalue()


def test_a_firm_is_kept_and_taken_into_the_work_on_the_screen(screen):
    screen.text_input(key="firm-name").set_value("Oak Street Cleaning").run()
    screen.text_area(key="firm-address").set_value("3 Oak Street\n\n Larkfield ").run()
    screen.text_area(key="firm-terms-es").set_value("Pague pronto.").run()
    screen.file_uploader(key="firm-logo").upload("ours.png", _picture()).run()
    screen.button(key="firm-keep").click().run()

    assert not screen.exception
    kept = firm_book().firm
    assert kept.name == "Oak Street Cleaning"
    assert kept.address == ("3 Oak Street", "Larkfield")
    assert kept.terms.es == ("Pague pronto.",)
    assert kept.logo == _picture()
    assert session_of(screen).work.book.firm.name == kept.name
    assert screen.success


def test_a_colour_too_light_to_read_is_refused_at_once(screen):
    screen.color_picker(key="firm-accent").set_value("#ffee00").run()

    assert any("too light to be read" in error.value for error in screen.error)
    assert screen.button(key="firm-keep").disabled
    assert not screen.exception


def test_what_is_no_logo_is_refused_in_a_sentence(screen):
    screen.file_uploader(key="firm-logo").upload("ours.png", b"no picture").run()

    assert any("no picture of a logo" in error.value for error in screen.error)
    assert not screen.exception


def test_a_broken_book_is_told_on_every_page_until_it_is_mended(opened_at):
    path = firm_folder() / "firm.toml"
    path.write_text("[rates\n")
    for page in ("plan", "quote", "rates", "firm", "sites"):
        app = opened_at(page)
        assert not app.exception
        (told,) = [one.value for one in app.warning if "packaged book is used" in one.value]
        assert "firm" in told
        assert session_of(app).quote
    path.unlink()
    assert not [one for one in app.run().warning if "packaged book" in one.value]
