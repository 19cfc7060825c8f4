import tomllib

from hypothesis import given
from hypothesis import strategies as st

from estimator.catalogue.spelled import spelled
from estimator.catalogue.writing import toml_text

VALUES = st.recursive(
    st.booleans() | st.integers(-(2**60), 2**60) | st.floats(allow_nan=False) | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=6,
)
ROWS = st.dictionaries(st.text(), VALUES, min_size=1, max_size=4)
NAMED = st.dictionaries(st.text(), ROWS, min_size=1, max_size=3)


@given(st.dictionaries(st.text("abcdefgh_", min_size=1), ROWS | NAMED, max_size=3))
def test_what_is_written_reads_as_it_was(rows):
    # TOML v1.0.0, read by Python's own reader.
    assert tomllib.loads(toml_text(rows)) == rows


def test_the_whole_packaged_book_is_written_and_read_again():
    rows = spelled({})
    assert tomllib.loads(toml_text(rows)) == rows


def test_a_firm_sees_its_own_spelling_over_the_packaged_one():
    own = {"rates": {"margin": 0.2, "source": "ours"}, "paces": {"kitchen": {"spray": "9 m^2/min"}}}
    rows = spelled(own)
    assert "markup" not in rows["rates"]
    assert rows["rates"]["margin"] == 0.2
    assert rows["rates"]["source"].startswith("ours; otherwise Invented")
    assert rows["paces"]["kitchen"]["spray"] == "9 m^2/min"
    assert rows["paces"]["kitchen"]["prepare"] == "12 s/m^2"
