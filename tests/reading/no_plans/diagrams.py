"""Charts, maps and diagrams, drawn here."""

import math

import numpy as np
from no_plans.page import Page

COLOURS = ((70, 110, 190), (210, 110, 60), (90, 160, 90), (180, 80, 120), (150, 150, 60))


def bar_chart() -> np.ndarray:
    page = Page(680, 500).word("Visitors by month", 230, 40, 0.7)
    page.line((70, 60), (70, 440), (660, 440), thick=2)
    for row in range(6):
        page.line((70, 70 + 62 * row), (660, 70 + 62 * row), ink=200)
        page.word(str(60 - 12 * row), 34, 75 + 62 * row)
    for bar in range(8):
        tall = 90 + (bar * 131) % 260
        page.box(90 + 70 * bar, 440 - tall, 46, tall, thick=-1, ink=COLOURS[0])
        page.box(90 + 70 * bar, 440 - tall, 46, tall)
        page.word("JFMAMJJA"[bar], 105 + 70 * bar, 462)
    return page.pixels


def line_chart() -> np.ndarray:
    page = Page(680, 480).box(70, 40, 580, 380).grid(70, 40, 8, 5, 72.5, 76, ink=215)
    for number, ink in enumerate(COLOURS[:3]):
        heights = np.cumsum(np.random.default_rng(number).normal(0, 14, 59)) + 150 + 60 * number
        points = [(70 + 10 * at, float(np.clip(y, 45, 415))) for at, y in enumerate(heights)]
        page.line(*points, thick=2, ink=ink)
    return page.word("Time in days", 300, 450).pixels


def pie_chart() -> np.ndarray:
    page, start = Page(620, 520), 0.0
    for ink, share in zip(COLOURS, (0.34, 0.25, 0.18, 0.15, 0.08), strict=True):
        page.disc((240, 270), 190, thick=-1, ink=ink, arc=(start, start + 360 * share))
        page.line(
            (240, 270),
            (240 + 190 * math.cos(math.radians(start)), 270 + 190 * math.sin(math.radians(start))),
            ink=255,
            thick=2,
        )
        start += 360 * share
    for row, ink in enumerate(COLOURS):
        page.box(470, 160 + 40 * row, 22, 22, thick=-1, ink=ink).word(
            f"Part {row + 1}", 505, 177 + 40 * row
        )
    return page.pixels


def flow_chart() -> np.ndarray:
    page = Page(560, 700)
    for row in range(4):
        top = 30 + 165 * row
        page.box(190, top, 180, 60, thick=2).word(f"Step {row + 1}", 250, top + 36)
        if row < 3:
            page.line((280, top + 60), (280, top + 80)).line((280, top + 150), (280, top + 165))
            ring = [
                (280, top + 80),
                (350, top + 115),
                (280, top + 150),
                (210, top + 115),
                (280, top + 80),
            ]
            page.line(*ring, thick=2).word("ready?", 256, top + 119)
            page.line((350, top + 115), (470, top + 115), (470, top + 195), (370, top + 195))
    return page.pixels


def family_tree() -> np.ndarray:
    page = Page(700, 520)
    for level in range(4):
        count = 2**level
        for number in range(count):
            x, top = 700 * (number + 0.5) / count, 30 + 125 * level
            wide = min(130, 620 / count)
            page.box(x - wide / 2, top, wide, 56, thick=2).word("Name", x - 20, top + 34)
            if level < 3:
                page.line((x, top + 56), (x, top + 90))
                spread = 175 / count
                page.line(
                    (x - spread, top + 125),
                    (x - spread, top + 90),
                    (x + spread, top + 90),
                    (x + spread, top + 125),
                )
    return page.pixels


def circuit() -> np.ndarray:
    page = Page(680, 520)
    for row in range(3):
        y = 90 + 150 * row
        page.line((60, y), (620, y), thick=2)
        for x in (130, 330, 500):
            page.box(x, y - 14, 60, 28, thick=-1, ink=255).box(x, y - 14, 60, 28, thick=2)
            page.word(f"R{row}{x // 100}", x + 10, y - 22)
        page.disc((270, y), 22, thick=-1, ink=255).disc((270, y), 22, thick=2)
    for x in (60, 240, 420, 620):
        page.line((x, 90), (x, 390), thick=2)
        page.box(x - 20, 158, 40, 8, thick=-1, ink=255).line((x - 20, 156), (x + 20, 156), thick=2)
        page.line((x - 20, 167), (x + 20, 167), thick=2)
    return page.pixels


def street_map() -> np.ndarray:
    page, rng = Page(700, 640, paper=(236, 232, 222)), np.random.default_rng(7)
    page.filled(
        [(0, 420), (200, 380), (420, 470), (700, 430), (700, 500), (400, 540), (0, 490)],
        (170, 205, 230),
    )
    page.filled([(430, 60), (640, 80), (620, 230), (440, 200)], (190, 222, 170))
    for number in range(9):
        start, end = float(rng.uniform(0, 640)), float(rng.uniform(0, 640))
        thick = 14 if number < 3 else 7
        for wide, ink in ((thick + 3, 150), (thick, 255)):
            page.line((0, start), (700, end), thick=wide, ink=ink)
            page.line((start, 0), (end, 640), thick=wide, ink=ink)
    for name, x, y in (("Mill Street", 90, 200), ("Weir", 300, 450), ("Park", 500, 140)):
        page.word(name, x, y, 0.5)
    return page.pixels


def parcel_map() -> np.ndarray:
    page, rng = Page(660, 600), np.random.default_rng(8)
    for row in range(3):
        top, left = 40 + 190 * row, 30.0
        while left < 560:
            wide = float(rng.uniform(60, 110))
            page.line(
                (left, top),
                (left + wide, top + 6),
                (left + wide - 4, top + 140),
                (left, top + 134),
                (left, top),
            )
            page.box(left + 18, top + 30, wide * 0.45, 50, thick=-1, ink=170).box(
                left + 18, top + 30, wide * 0.45, 50
            )
            page.word(str(int(left) + row), left + 14, top + 118, 0.4)
            left += wide
        page.word("Orchard Road", 250, top + 168, 0.5)
    return page.pixels


def railway_map() -> np.ndarray:
    page = Page(680, 560)
    for ink, points in zip(
        COLOURS,
        (
            ((40, 80), (300, 80), (420, 200), (640, 200)),
            ((40, 280), (640, 280)),
            ((120, 520), (120, 380), (420, 90), (640, 90)),
            ((520, 40), (520, 520)),
            ((40, 460), (340, 460), (520, 280)),
        ),
        strict=True,
    ):
        page.line(*points, thick=8, ink=ink)
        for x, y in points:
            page.disc((x, y), 9, thick=-1, ink=255).disc((x, y), 9, thick=2).word(
                "Stop", x + 10, y - 10
            )
    return page.pixels


def star_chart() -> np.ndarray:
    page, rng = Page(640, 640), np.random.default_rng(9)
    page.disc((320, 320), 290, thick=2)
    for radius in (100, 200):
        page.disc((320, 320), radius, ink=150)
    for turn in range(0, 360, 30):
        out = (320 + 290 * math.cos(math.radians(turn)), 320 + 290 * math.sin(math.radians(turn)))
        page.line((320, 320), out, ink=170).word(f"{turn // 15}h", *out, 0.4)
    stars = [
        (320 + 270 * float(r) * math.cos(a), 320 + 270 * float(r) * math.sin(a))
        for r, a in zip(rng.random(60) ** 0.5, rng.random(60) * 6.28, strict=True)
    ]
    for star in stars:
        page.disc(star, 3, thick=-1)
    return page.line(*stars[:9]).line(*stars[20:28]).pixels


def timeline() -> np.ndarray:
    page = Page(700, 460).grid(130, 50, 10, 9, 54, 42, ink=200)
    for row in range(9):
        page.word(f"Task {row + 1}", 20, 78 + 42 * row)
        page.box(
            140 + 45 * row, 60 + 42 * row, 60 + (row * 67) % 120, 22, thick=-1, ink=COLOURS[row % 5]
        )
    return page.pixels


def screen_window() -> np.ndarray:
    page = Page(700, 520, paper=(60, 110, 140)).box(60, 50, 580, 420, thick=-1, ink=240)
    page.box(60, 50, 580, 420).box(60, 50, 580, 30, thick=-1, ink=(70, 90, 140))
    page.word("Settings", 74, 71, 0.5, ink=255).box(612, 56, 18, 18, ink=255)
    for row, name in enumerate(("General", "Sound", "Screen", "Keys")):
        page.word(name, 80, 130 + 40 * row)
    page.line((180, 80), (180, 470)).box(200, 100, 420, 130).box(200, 250, 420, 130)
    for row in range(3):
        page.box(220, 120 + 34 * row, 14, 14).word("Show at start", 246, 133 + 34 * row)
        page.box(220, 270 + 34 * row, 300, 22, thick=-1, ink=255).box(220, 270 + 34 * row, 300, 22)
    for x, name in ((420, "OK"), (525, "Cancel")):
        page.box(x, 410, 90, 34, thick=2).word(name, x + 22, 432)
    return page.pixels


def web_page() -> np.ndarray:
    page = Page(680, 700).box(20, 20, 640, 70, thick=2).word("LOGO", 40, 62, 0.8)
    for x in range(300, 620, 80):
        page.box(x, 40, 64, 30).word("Menu", x + 12, 60, 0.4)
    page.box(20, 110, 640, 190, thick=2).line((20, 110), (660, 300)).line((20, 300), (660, 110))
    for x in (20, 240, 460):
        page.box(x, 320, 200, 240, thick=2).box(x + 14, 334, 172, 110)
        for row in range(4):
            page.line((x + 14, 470 + 20 * row), (x + 180, 470 + 20 * row), ink=120, thick=2)
    return page.box(20, 580, 640, 90, thick=2).pixels


DIAGRAMS = {
    "a bar chart": bar_chart,
    "a line chart": line_chart,
    "a pie chart": pie_chart,
    "a flow chart": flow_chart,
    "a family tree": family_tree,
    "a circuit": circuit,
    "a street map": street_map,
    "a map of parcels": parcel_map,
    "a railway map": railway_map,
    "a star chart": star_chart,
    "a timeline": timeline,
    "a window on a screen": screen_window,
    "a web page": web_page,
}
