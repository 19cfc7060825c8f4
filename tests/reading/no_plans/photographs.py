"""Photographs and scans that come with scikit-image, and scenes painted here.

Those of scikit-image are free of rights (CC0 or public domain, as its ``skimage.data`` tells of
each) and lie in its wheel, so that none is fetched.
"""

from importlib.resources import files

import cv2
import numpy as np
from no_plans.page import Page

_LONGEST_PX = 700
_SCANNED = {
    "a cup of coffee": "coffee.png",
    "a cat": "chelsea.png",
    "coins": "coins.png",
    "a rocket on its pad": "rocket.jpg",
    "galaxies": "hubble_deep_field.jpg",
    "a scanned book page": "page.png",
    "handwritten words": "text.png",
    "a brick wall": "brick.png",
}


def _scanned(file: str) -> np.ndarray:
    coded = np.frombuffer((files("skimage") / "data" / file).read_bytes(), np.uint8)
    pixels = cv2.cvtColor(cv2.imdecode(coded, cv2.IMREAD_COLOR), cv2.COLOR_BGR2RGB)
    zoom = min(1.0, _LONGEST_PX / max(pixels.shape))
    return cv2.resize(pixels, None, fx=zoom, fy=zoom, interpolation=cv2.INTER_AREA)


def _grainy(page: Page, seed: int) -> np.ndarray:
    grain = np.random.default_rng(seed).normal(0, 9, page.pixels.shape)
    return np.clip(cv2.GaussianBlur(page.pixels, (0, 0), 1.3) + grain, 0, 255).astype(np.uint8)


def landscape() -> np.ndarray:
    page = Page(680, 460)
    for row in range(460):
        page.line((0, row), (680, row), ink=(120 + row // 4, 160 + row // 5, 235))
    page.disc((540, 90), 40, thick=-1, ink=(255, 240, 190))
    page.filled(
        [(0, 300), (150, 140), (290, 290), (430, 170), (680, 320), (680, 460), (0, 460)], 110
    )
    page.filled([(0, 330), (340, 280), (680, 350), (680, 460), (0, 460)], (70, 130, 60))
    for x in range(30, 680, 70):
        page.filled([(x, 400), (x + 18, 330), (x + 36, 400)], (30, 80, 40))
    return _grainy(page, 1)


def portrait() -> np.ndarray:
    page = Page(480, 620, paper=(170, 180, 190))
    page.filled([(40, 620), (110, 470), (370, 470), (440, 620)], (60, 70, 110))
    page.disc((240, 270), 150, thick=-1, ink=(70, 50, 40))
    page.disc((240, 300), 125, thick=-1, ink=(215, 175, 150))
    for x in (190, 290):
        page.disc((x, 280), 16, thick=-1, ink=250).disc((x, 280), 7, thick=-1)
    page.disc((240, 350), 45, thick=4, ink=(150, 70, 70), arc=(20, 160))
    return _grainy(page, 2)


def skyline() -> np.ndarray:
    page = Page(680, 520, paper=(25, 30, 60))
    for x, tall, wide in (
        (20, 300, 90),
        (125, 410, 70),
        (210, 230, 120),
        (345, 370, 95),
        (455, 460, 80),
    ):
        page.box(x, 520 - tall, wide, tall, thick=-1, ink=(50, 50, 66))
        for y in range(540 - tall, 505, 30):
            for left in range(x + 9, x + wide - 14, 22):
                page.box(left, y, 10, 16, thick=-1, ink=(240, 220, 130))
    return _grainy(page, 3)


PHOTOGRAPHS = {name: (lambda file=file: _scanned(file)) for name, file in _SCANNED.items()} | {
    "a landscape": landscape,
    "a portrait": portrait,
    "a skyline at night": skyline,
}
