"""Buildings from the side, furniture, playing fields and patterns, drawn here."""

import numpy as np
from no_plans.page import Page

COATS = ((200, 60, 60), (60, 90, 180), (220, 220, 225))


def facade() -> np.ndarray:
    page = (
        Page(640, 600)
        .box(60, 120, 520, 420, thick=3)
        .line((40, 120), (320, 30), (600, 120), thick=3)
    )
    for y in (150, 290, 420):
        for x in (90, 200, 380, 490):
            page.box(x, y, 60, 80, thick=2).line((x + 30, y), (x + 30, y + 80)).line(
                (x, y + 40), (x + 60, y + 40)
            )
    page.box(285, 420, 70, 120, thick=2).disc((344, 484), 4, thick=-1)
    return page.line((20, 540), (620, 540), thick=3).pixels


def section() -> np.ndarray:
    page = Page(640, 620).line((40, 200), (320, 40), (600, 200), thick=8)
    for y in (200, 330, 460, 580):
        page.box(80, y, 480, 10, thick=-1)
    for x in (80, 550):
        page.box(x, 200, 12, 380, thick=-1)
    page.box(310, 330, 8, 250, thick=-1)
    for x, y in ((130, 380), (400, 380), (400, 510), (230, 240)):
        page.box(x, y, 50, 50 if y < 500 else 68)
    for step in range(13):
        page.line(
            (110 + 13 * step, 580 - 10 * step),
            (123 + 13 * step, 580 - 10 * step),
            (123 + 13 * step, 570 - 10 * step),
        )
    return page.line((0, 590), (640, 590), thick=2).word("Section A-A", 260, 612).pixels


def childs_house() -> np.ndarray:
    page = (
        Page(560, 520)
        .box(140, 220, 280, 230, thick=4)
        .line((120, 220), (280, 90), (440, 220), thick=4)
    )
    page.box(250, 340, 60, 110, thick=3).box(170, 260, 60, 60, thick=3).box(
        330, 260, 60, 60, thick=3
    )
    for x in (200, 360):
        page.line((x, 260), (x, 320), thick=2)
    return (
        page.disc((480, 80), 36, thick=3, ink=(230, 180, 30))
        .line((20, 450), (540, 450), thick=4, ink=(60, 140, 60))
        .pixels
    )


def wardrobe() -> np.ndarray:
    page = (
        Page(560, 620)
        .box(80, 60, 400, 480, thick=3)
        .line((213, 60), (213, 440))
        .line((346, 60), (346, 440))
    )
    page.line((80, 440), (480, 440), thick=2)
    for x in (80, 213, 346):
        page.box(x + 14, 80, 105, 340).box(x + 8, 455, 118, 70).disc((x + 66, 490), 6, thick=2)
        page.disc((x + 118, 260), 5, thick=2)
    page.line((80, 580), (480, 580)).line((80, 570), (80, 590)).line((480, 570), (480, 590))
    return page.word("1800", 260, 575).pixels


def tiles() -> np.ndarray:
    page = Page(600, 600, paper=(205, 222, 228))
    return page.grid(0, 0, 10, 10, 60, 60, thick=4, ink=245).pixels


def bricks() -> np.ndarray:
    page = Page(640, 480, paper=(178, 92, 70))
    for row in range(13):
        page.line((0, 40 * row), (640, 40 * row), thick=5, ink=215)
        for column in range(8):
            x = 90 * column + 45 * (row % 2)
            page.line((x, 40 * row), (x, 40 * row + 40), thick=5, ink=215)
    return page.pixels


def parking() -> np.ndarray:
    page = Page(700, 520, paper=(95, 95, 98))
    for top in (30, 200, 370):
        page.line((40, top), (660, top), thick=4, ink=250)
        for bay in range(11):
            page.line((40 + 62 * bay, top), (40 + 62 * bay, top + 110), thick=4, ink=250)
            if bay % 3 != 1 and bay < 10:
                page.box(52 + 62 * bay, top + 16, 38, 80, thick=-1, ink=COATS[bay % 3])
    return page.pixels


def football_pitch() -> np.ndarray:
    page = Page(700, 480, paper=(74, 140, 74)).box(40, 40, 620, 400, thick=3, ink=255)
    page.line((350, 40), (350, 440), thick=3, ink=255).disc((350, 240), 60, thick=3, ink=255)
    for left, goal in ((40, 40), (560, 610)):
        page.box(left, 130, 100, 220, thick=3, ink=255).box(goal, 190, 50, 100, thick=3, ink=255)
    return page.pixels


def logo() -> np.ndarray:
    page = Page(520, 520).disc((260, 220), 150, thick=-1, ink=(30, 90, 140))
    page.disc((260, 220), 110, thick=-1, ink=255).filled(
        [(260, 100), (350, 290), (170, 290)], (220, 120, 40)
    )
    return page.word("LARK", 170, 460, 2.2, bold=5).pixels


def chessboard() -> np.ndarray:
    dark = np.indices((8, 8)).sum(axis=0).repeat(75, axis=0).repeat(75, axis=1) % 2
    return np.repeat(np.where(dark, 40, 240).astype(np.uint8)[..., None], 3, axis=2)


def noise() -> np.ndarray:
    return np.random.default_rng(10).integers(0, 256, (520, 640, 3), dtype=np.uint8)


def gradient() -> np.ndarray:
    grey = np.linspace(0, 255, 640).astype(np.uint8)
    return np.ascontiguousarray(np.broadcast_to(grey[None, :, None], (480, 640, 3)))


def blank() -> np.ndarray:
    return Page(640, 480).pixels


def black() -> np.ndarray:
    return Page(640, 480, paper=0).pixels


THINGS = {
    "a facade": facade,
    "a section through a house": section,
    "a child's drawing of a house": childs_house,
    "a wardrobe": wardrobe,
    "tiles": tiles,
    "drawn bricks": bricks,
    "a car park": parking,
    "a football pitch": football_pitch,
    "a logo": logo,
    "a chessboard": chessboard,
    "noise": noise,
    "a gradient": gradient,
    "a blank page": blank,
    "a black page": black,
}
