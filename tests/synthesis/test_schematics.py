import numpy as np
import pytest

from estimator.synthesis.schematics import schematic


@pytest.mark.parametrize("seed", range(4))
def test_a_schematic_is_a_sheet_with_ink_and_the_same_for_a_number(seed):
    sheet = schematic(seed, side_px=256)

    assert sheet.shape == (256, 256, 3)
    assert np.ptp(sheet) > 60
    assert np.array_equal(sheet, schematic(seed, side_px=256))


def test_schematics_of_other_numbers_look_otherwise():
    assert not np.array_equal(schematic(1, side_px=256), schematic(2, side_px=256))
