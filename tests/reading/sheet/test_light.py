import numpy as np

from estimator.reading.sheet.light import evened


def paper(light):
    """Paper with strokes of ink on it, lit from the left."""
    pixels = np.full((400, 600, 3), 240.0)
    pixels[:, ::40, :] = 30.0
    return (pixels * np.linspace(1.0, light, 600)[:, None]).astype(np.uint8)


def test_evenly_lit_paper_is_left_alone():
    pixels = paper(0.95)
    assert evened(pixels) is pixels


def test_paper_in_uneven_light_is_evened_and_its_ink_stays_dark():
    lit = evened(paper(0.45))
    bare = lit[:, 20::40].mean(axis=(0, 2))
    assert bare.min() > 0.93 * bare.max()
    assert lit[:, ::40].max() < 90
