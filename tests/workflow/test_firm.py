from io import BytesIO

import pytest
from PIL import Image

from estimator.errors import BadEntries, CatalogueError
from estimator.quote.firm import BusinessTerms, Firm
from estimator.workflow.firm import firm_with_logo, keep_firm
from estimator.workflow.firm_book import firm_book, firm_folder, keep_firm_rows


@pytest.fixture(autouse=True)
def own_folder(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))


def _picture(colour):
    written = BytesIO()
    Image.new("RGB", (30, 20), colour).save(written, "PNG")
    return written.getvalue()


OWN = Firm(
    name='Oak "Street" Cleaning \\ Söhne',
    address=("3 Oak Street", "Larkfield"),
    contact=("555 0100",),
    accent="#7a1f3d",
    terms=BusinessTerms(en=("Pay.",), es=("Pague «pronto».",)),
)


def test_a_firm_comes_back_from_its_book_with_its_logo():
    kept = firm_with_logo(OWN, _picture("#7a1f3d"), "our logo.png")
    keep_firm(kept)

    found = firm_book().firm
    for part in ("name", "address", "contact", "registration", "logo", "ink", "accent", "terms"):
        assert getattr(found, part) == getattr(kept, part), part


def test_other_rows_of_the_book_stay_as_they_were():
    keep_firm_rows({"rates": {"labour_per_hour": 31.5, "source": "ours", "as_of": "2026-11"}})
    keep_firm(OWN)

    assert firm_book().rates.labour_per_hour == pytest.approx(31.5, abs=0)
    assert firm_book().firm.name == OWN.name


def test_an_earlier_logo_is_never_written_over():
    for colour in ("#7a1f3d", "#0f5c5c"):
        keep_firm(firm_with_logo(OWN, _picture(colour), "logo.png"))

    assert len(list(firm_folder().glob("logo-*.png"))) == 2
    assert firm_book().firm.logo == _picture("#0f5c5c")


def test_a_logo_of_50_mb_is_refused_and_nothing_changes():
    keep_firm(OWN)

    with pytest.raises(CatalogueError, match=r"takes 50\.0 MB"):
        firm_with_logo(OWN, b"\0" * 50_000_000, "logo.png")
    assert firm_book().firm.logo is None


def test_a_firm_whose_logo_was_lost_is_told():
    keep_firm(firm_with_logo(OWN, _picture("#0f5c5c"), "logo.png"))
    next(firm_folder().glob("logo-*.png")).unlink()

    with pytest.raises(BadEntries, match="the logo cannot be opened"):
        firm_book()
