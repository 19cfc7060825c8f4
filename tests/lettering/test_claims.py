"""Each claim is checked on rooms drawn at 0.01 m a pixel, so that the printed figures are ours."""

import math

import numpy as np
import pytest

from estimator.lettering.claims import claims
from estimator.lettering.labels import labels_of
from estimator.lettering.naming import placed
from estimator.plan.geometry import rectangle
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Source, Storey
from estimator.reading.picture import Picture

INCH = 0.0254  # exactly (NIST SP 811, appendix B)
SCALE = 0.01
OBLONG = rectangle(400, 300)
WHITE = np.full((1000, 1414, 3), 255, np.uint8)
SHEET = Source(file="sheet", width_px=1414, height_px=1000)


@pytest.fixture
def claimed(words):
    def found(lines, outline=OBLONG, *, dpi=None):
        plan = Plan(
            storeys=(Storey(source=SHEET),), rooms=(Room(id="a", name="A", outline_px=outline),)
        )
        labels = placed(labels_of(lines, words), plan)
        return claims(plan, labels, Picture(pixels=WHITE, dpi=dpi))

    return found


def scales(claim):
    return [option.metres_per_px for option in claim.options]


def test_each_side_of_a_printed_size_is_a_claim(claimed, line):
    found = claimed([line("3.00 x 4.00 m", (200, 150))])

    assert [claim.says for claim in found] == ["A, 4.00 m", "A, 3.00 m"]
    assert [scales(claim)[0] for claim in found] == pytest.approx([SCALE, SCALE])


def test_a_recess_leaves_the_usual_width_among_the_meanings(claimed, line):
    with_bay = rectangle(400, 300).union(rectangle(80, 40, left=20, top=300))

    deeper = claimed([line("4.00 x 3.00 m", (300, 150))], with_bay)[1]

    assert scales(deeper)[0] == pytest.approx(3.0 / 340)
    assert any(scale == pytest.approx(SCALE) for scale in scales(deeper))


def test_coarse_figures_claim_less(claimed, line):
    fine = claimed([line("4.00 x 3.00 m", (200, 150))])[0].options[0]
    coarse = claimed([line("4 m x 3 m", (200, 150))])[0].options[0]

    # Evenly rounded to a metre: 1 / √12 of it is one standard deviation.
    assert coarse.relative_error == pytest.approx(1 / math.sqrt(12) / 4, rel=0.02)
    assert fine.relative_error < 0.02


def test_an_area_claims_by_its_root(claimed, line):
    (claim,) = claimed([line("12.0 m²", (200, 150))])

    assert scales(claim) == pytest.approx([SCALE])


def test_a_total_counts_inner_walls_and_is_told_once(claimed, line):
    # Rooms sum to a median 94 % of printed totals (real listing plans, measured by us).
    lines = [line("Gross internal area 12.77 m²", (700, 900)), line("12.77 m²", (700, 950))]

    (claim,) = claimed(lines)

    assert scales(claim) == pytest.approx([math.sqrt(0.94 * 12.77 / 120_000)])


def test_a_stated_scale_needs_its_sheet_or_a_resolution(claimed, line):
    stated = line("Scale 1:50", (700, 900))

    assert claimed([stated]) == ()
    assert claimed([stated], dpi=72) == ()  # what cameras and drawing programs write by default
    assert scales(claimed([stated], dpi=127)[0]) == pytest.approx([50 * INCH / 127])


def test_a_stated_scale_on_the_sheet_shown_claims_by_its_size(claimed, line):
    # A4 is 210 by 297 mm (ISO 216).
    (claim,) = claimed([line("Scale 1:50 on A4", (700, 900))])

    assert scales(claim) == pytest.approx([50 * 0.297 / 1414], rel=1e-3)


def test_a_notice_takes_weight_from_the_stated_scale_only(claimed, line):
    lines = [line("4.00 x 3.00 m", (200, 150)), line("1:50", (700, 900))]
    notice = line("Do not scale", (700, 950))

    plain = {claim.kind: claim.weight for claim in claimed(lines, dpi=127)}
    told = {claim.kind: claim.weight for claim in claimed([*lines, notice], dpi=127)}

    assert told["room sides"] == plain["room sides"]
    assert told["stated scale"] < plain["stated scale"]


def test_sizes_of_a_room_with_several_count_less(claimed, line):
    one = claimed([line("4.00 x 3.00 m", (200, 150))])
    two = claimed([line("2.00 x 3.00 m", (100, 150)), line("2.00 x 2.50 m", (300, 150))])

    assert max(claim.weight for claim in two) < one[0].weight
