import pytest

from estimator.errors import CatalogueError
from estimator.quote.colour import contrast, luminance
from estimator.quote.firm import BusinessTerms, Firm


def test_contrast_is_that_of_the_published_examples():
    # W3C, Understanding WCAG 2.2, SC 1.4.3: #767676 is the lightest grey that passes on white.
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)
    assert contrast("#777777", "#ffffff") < 4.5
    # Pure red on white, 4.0 to 1 (luminance 0.2126 by definition).
    assert luminance("#ff0000") == pytest.approx(0.2126)
    assert contrast("#ff0000", "#ffffff") == pytest.approx(1.05 / 0.2626)


@pytest.mark.parametrize("name", ["ink", "accent"])
def test_a_colour_too_light_for_text_is_refused_in_a_sentence(name):
    with pytest.raises(CatalogueError, match=r"too light .* \(contrast 1\.1 to 1\)"):
        Firm(**{name: "#ffff00"})


@pytest.mark.parametrize("colour", ["red", "#fff", "#0F5C5C;", "", "#12345g"])
def test_what_is_no_colour_is_refused_in_a_sentence(colour):
    with pytest.raises(CatalogueError, match="is no colour"):
        Firm(accent=colour)


def test_a_logo_is_spelled_out_by_its_digest_alone():
    firm = Firm(name="Larkfield Surface Care", logo=b"x" * 100_000)

    assert len(repr(firm)) < 1_000
    assert repr(firm) != repr(Firm(name="Larkfield Surface Care", logo=b"y" * 100_000))


def test_terms_in_a_language_that_has_none_are_those_in_english():
    terms = BusinessTerms(en=("Pay.",), fr=("Payez.",))

    assert terms.said("fr") == ("Payez.",)
    assert terms.said("es") == ("Pay.",)
