import struct
import zlib
from io import BytesIO

import pytest
from PIL import Image

from estimator.catalogue.loader import book, packaged_book
from estimator.catalogue.logo import logo, logo_file
from estimator.errors import BadEntries, CatalogueError

ROW = 'name = "Oak Street Cleaning"\nsource = "the firm"\nas_of = "2026-11"\n'


def _picture(kind="PNG", size=(20, 10)):
    written = BytesIO()
    Image.new("RGB", size, "#0f5c5c").save(written, kind)
    return written.getvalue()


def _bomb():
    """A PNG of a few bytes that says it has 100,000 by 100,000 pixels."""
    head = struct.pack(">IIBBBBB", 100_000, 100_000, 8, 2, 0, 0, 0)
    chunks = [(b"IHDR", head), (b"IDAT", zlib.compress(b"\0" * 1000)), (b"IEND", b"")]
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
        for name, data in chunks
    )


def _firm(folder, text):
    path = folder / "own.toml"
    path.write_text(f"[firm]\n{text}")
    return path


@pytest.mark.parametrize("kind", ["PNG", "JPEG"])
def test_a_png_or_jpeg_is_a_logo(kind):
    assert logo(_picture(kind), "logo") == _picture(kind)


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"\0" * 50_000_000, "takes 50.0 MB"),
        (_bomb(), "too many pixels"),
        (_picture(size=(3000, 3000)), "too many pixels"),
        (_picture("GIF"), "no picture of a logo"),
        (_picture(size=(900, 900))[:800], "no picture of a logo"),
        (b"", "no picture of a logo"),
        (b"<svg/>", "no picture of a logo"),
    ],
)
def test_what_is_no_small_logo_is_refused_in_a_sentence(data, says):
    with pytest.raises(CatalogueError, match=says):
        logo(data, "logo.png")


def test_a_large_file_is_refused_before_it_is_read(tmp_path):
    path = tmp_path / "logo.png"
    with path.open("wb") as file:
        file.truncate(50_000_000)

    with pytest.raises(CatalogueError, match=r"takes 50\.0 MB"):
        logo_file(path)


def test_the_packaged_firm_has_a_logo_and_terms_in_three_languages():
    firm = packaged_book().firm

    assert logo(firm.logo, "packaged") == firm.logo
    assert len(firm.terms.en) == len(firm.terms.fr) == len(firm.terms.es) > 2


def test_a_firm_of_ones_own_takes_nothing_over_from_the_packaged_one(tmp_path):
    (tmp_path / "own.png").write_bytes(_picture())
    firm = book(_firm(tmp_path, ROW + 'logo = "own.png"\nterms = { es = ["Pague."] }\n')).firm

    assert firm.name == "Oak Street Cleaning"
    assert firm.address == firm.contact == firm.terms.en == ()
    assert firm.terms.es == ("Pague.",)
    assert firm.logo == _picture()


def test_all_mistakes_about_a_firm_are_named_at_once(tmp_path):
    (tmp_path / "huge.png").write_bytes(_picture(size=(3000, 3000)))
    path = _firm(tmp_path, ROW + 'logo = "huge.png"\naddress = "one line"\nslogan = "Clean!"\n')

    with pytest.raises(BadEntries) as refused:
        book(path)
    said = str(refused.value)
    assert "3 mistakes" in said
    assert "logo: the logo has too many pixels" in said
    assert "address: a list" in said
    assert "slogan: there is no such key" in said


def test_a_firm_with_an_illegible_colour_is_refused(tmp_path):
    with pytest.raises(BadEntries, match="firm, accent: #eeeeee is too light"):
        book(_firm(tmp_path, ROW + 'accent = "#eeeeee"\n'))


def test_a_logo_lies_beside_the_book_and_nowhere_else(tmp_path):
    (tmp_path / "above.png").write_bytes(_picture())
    (tmp_path / "inner").mkdir()

    with pytest.raises(BadEntries, match="the logo cannot be opened"):
        book(_firm(tmp_path / "inner", ROW + 'logo = "../above.png"\n'))
