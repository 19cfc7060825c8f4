"""Declared strengths; formulas and labels of the *Handbook of Chlorination*."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.errors import QuantityError
from estimator.quantities import declared_strength
from estimator.treatment.product import Form


@pytest.mark.parametrize(
    ("written", "grams_per_litre"),
    [
        ("5.25 % NaOCl by weight, SG 1.08", 54.0),
        ("6 % sodium hypochlorite by weight, specific gravity 1.08", 61.7),
        ("8.25 % NaOCl w/w; SG 1.10", 86.4),
        ("12.5 % sodium hypochlorite, SG 1.16", 138.1),
        ("12.5 % trade", 125.0),
        ("12.5 % available trade strength", 125.0),
        ("10.8 % by weight, SG 1.16", 125.3),
        ("5 % w/v", 50.0),
        ("5 % available chlorine by weight per volume", 50.0),
        ("1000 ppm", 1.0),
        ("50 g/L", 50.0),
    ],
)
def test_liquids_are_read_by_their_basis(written, grams_per_litre):
    declared = declared_strength(written, Form.LIQUID)

    assert declared.available_strength == pytest.approx(grams_per_litre, abs=0.06)
    assert declared.basis


def test_powder_and_tablets_are_read_by_their_mass():
    assert declared_strength("60 % by weight", Form.POWDER).available_share == 0.6
    tablet = declared_strength("1.5 g available chlorine per tablet", Form.TABLET)
    assert tablet.available_per_tablet == pytest.approx(1.5e-3)


@pytest.mark.parametrize("form", [Form.LIQUID, Form.POWDER, Form.READY])
@pytest.mark.parametrize("written", ["12.5", "12.5 %", "12.5 percent"])
def test_a_figure_that_does_not_say_of_what_is_refused(written, form):
    with pytest.raises(
        QuantityError, match=r"does not say per cent of what; write it like 12\.5 %"
    ):
        declared_strength(written, form)


@pytest.mark.parametrize(
    ("written", "form", "says"),
    [
        ("12.5 % by weight", Form.LIQUID, "needs its specific gravity"),
        ("12.5 % by weight, SG 11.6", Form.LIQUID, "no liquid here has a specific gravity of 11.6"),
        ("60 % trade", Form.POWDER, "a powder is declared by weight"),
        ("120 % trade", Form.LIQUID, "not between 0 and 100 %"),
        ("0 % trade", Form.LIQUID, "not between 0 and 100 %"),
        ("5 %", Form.TABLET, "available chlorine one releases; write it like 1.5 g per tablet"),
        ("1.5 per tablet", Form.TABLET, "it has no unit"),
        ("-5 % trade", Form.LIQUID, "it is negative"),
        ("6 oz per US gal", Form.TABLET, "write it like 1.5 g per tablet"),
    ],
)
def test_what_a_label_cannot_mean_is_refused_in_a_sentence(written, form, says):
    with pytest.raises(QuantityError, match=says):
        declared_strength(written, form)


@given(st.text(max_size=40), st.sampled_from(Form))
def test_any_text_is_a_strength_or_a_quantity_error(text, form):
    try:
        declared = declared_strength(text, form)
    except QuantityError:
        return
    assert declared.basis
