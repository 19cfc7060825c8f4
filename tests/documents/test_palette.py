from itertools import pairwise

import pytest

from estimator.documents.palette import STRENGTH_RAMP, strength_colours, text_on
from estimator.quote.colour import rgb


def _luminance(colour):
    """Relative luminance as WCAG 2.2 defines it."""
    linear = [
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
        for part in (value / 255 for value in rgb(colour))
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("count", range(1, 9))
def test_stronger_solutions_are_never_lighter(count):
    colours = list(strength_colours(float(strength) for strength in range(1, count + 1)).values())

    assert len(colours) == count
    assert all(_luminance(weak) >= _luminance(strong) for weak, strong in pairwise(colours))


@pytest.mark.parametrize("count", range(2, 6))
def test_up_to_five_strengths_have_colours_of_their_own(count):
    colours = strength_colours(float(strength) for strength in range(1, count + 1))

    assert len(set(colours.values())) == count


@pytest.mark.parametrize("fill", STRENGTH_RAMP)
def test_words_on_every_strength_have_a_contrast_of_at_least_four_and_a_half(fill):
    # WCAG 2.2, success criterion 1.4.3: 4.5 : 1 for text.
    light, dark = sorted((_luminance(fill), _luminance(text_on(fill))), reverse=True)

    assert (light + 0.05) / (dark + 0.05) >= 4.5
