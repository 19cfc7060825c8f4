"""Sheets photographed by an invented camera, in invented light, on invented desks."""

import math

import cv2
import numpy as np
import pytest
from attrs import frozen

SIZE = (1500, 1125)  # of every photo
FOCAL = 0.72 * SIZE[0]  # a common phone: 26 mm to a picture 36 mm wide (common practice)


@frozen(kw_only=True, eq=False)
class Photo:
    """A photo, the sheet's corners in it and the map from the sheet's pixels to the photo's."""

    pixels: np.ndarray
    corners: np.ndarray
    to_photo: np.ndarray

    def places(self, points):
        return cv2.perspectiveTransform(np.asarray(points, float)[None], self.to_photo)[0]


def camera(wide, tall, *, tilt, turn, roll, fills=0.9):
    """The map from a sheet, seen turned by so many degrees, to the photo it nearly fills."""
    c, s = np.cos(np.radians([tilt, turn, roll])), np.sin(np.radians([tilt, turn, roll]))
    about_x = np.array([[1, 0, 0], [0, c[0], -s[0]], [0, s[0], c[0]]])
    about_y = np.array([[c[1], 0, s[1]], [0, 1, 0], [-s[1], 0, c[1]]])
    about_z = np.array([[c[2], -s[2], 0], [s[2], c[2], 0], [0, 0, 1]])
    rotation = about_z @ about_x @ about_y
    lens = np.array([[FOCAL, 0, SIZE[0] / 2], [0, FOCAL, SIZE[1] / 2], [0, 0, 1]])
    centred = np.array([[1, 0, -wide / 2], [0, 1, -tall / 2], [0, 0, 1.0]])
    corners = np.array([[0, 0], [wide, 0], [wide, tall], [0, tall]], float)
    at = np.array([0.0, 0.0, 2.0 * wide])  # where the middle of the sheet is from the camera
    for _ in range(40):
        matrix = lens @ np.column_stack([rotation[:, 0], rotation[:, 1], at]) @ centred
        seen = cv2.perspectiveTransform(corners[None], matrix)[0]
        low, high = seen.min(axis=0), seen.max(axis=0)
        at[2] *= max((high - low) / SIZE) / fills
        at[:2] += (np.array(SIZE) - low - high) / 2 * at[2] / FOCAL
    return matrix


def desk(kind, rng):
    """What the sheet lies on."""
    wide, tall = SIZE
    if kind == "wood":
        grain = cv2.resize(rng.normal(0, 1, (tall, 12)).astype(np.float32), SIZE)
        fine = cv2.resize(rng.normal(0, 1, (tall // 2, 60)).astype(np.float32), SIZE)
        return np.array([150, 105, 66]) + (14 * grain + 7 * fine)[..., None]
    if kind == "dark":
        return np.full((tall, wide, 3), (46, 48, 54), float)
    if kind == "cloth":
        rows, columns = np.mgrid[:tall, :wide]
        checks = ((rows // 45 + columns // 45) % 2)[..., None]
        return np.where(checks, (70, 96, 130), (120, 60, 62)).astype(float)
    return np.full((tall, wide, 3), (172, 176, 180), float)  # a pale table


DESKS = ("wood", "dark", "cloth", "pale")


def photographed(
    picture, seed, *, tilt=None, turn=None, roll=None, on=None, fills=0.9, shade=1.0, bleed=0.0
):
    """Photograph a sheet; what is not said is drawn by the seed."""
    rng = np.random.default_rng(seed)
    tilt = rng.uniform(-28, 28) if tilt is None else tilt
    turn = rng.uniform(-22, 22) if turn is None else turn
    roll = rng.uniform(-8, 8) if roll is None else roll
    kind = DESKS[int(rng.integers(len(DESKS)))] if on is None else on
    tall, wide = picture.shape[:2]
    to_photo = camera(wide, tall, tilt=tilt, turn=turn, roll=roll, fills=fills + bleed)
    paper = np.minimum(picture, np.array([246, 244, 238])).astype(np.uint8)
    # picture files count from pixel edges, OpenCV from pixel centres
    half = np.array([[1, 0, 0.5], [0, 1, 0.5], [0, 0, 1]])
    matrix = np.linalg.inv(half) @ to_photo @ half
    seen = cv2.warpPerspective(paper, matrix, SIZE, flags=cv2.INTER_AREA)
    inside = cv2.warpPerspective(np.ones((tall, wide), np.float32), matrix, SIZE)[..., None]
    below = desk(kind, rng)
    hint = cv2.GaussianBlur(inside, (0, 0), 9)[..., None]  # the sheet's own shadow
    below = below * (1 - 0.35 * hint)
    scene = seen + below * (1 - inside)
    scene *= light(rng, shade)[..., None] * (1, 0.985, 0.94)
    scene = cv2.GaussianBlur(scene, (0, 0), rng.uniform(0.4, 1.0)) + rng.normal(0, 2.5, scene.shape)
    pixels = np.clip(scene, 0, 255).astype(np.uint8)
    _, packed = cv2.imencode(".jpg", pixels[..., ::-1], [cv2.IMWRITE_JPEG_QUALITY, 82])
    pixels = np.ascontiguousarray(cv2.imdecode(packed, cv2.IMREAD_COLOR)[..., ::-1])
    corners = cv2.perspectiveTransform(
        np.array([[[0, 0], [wide, 0], [wide, tall], [0, tall]]], float), to_photo
    )[0]
    return Photo(pixels=pixels, corners=corners, to_photo=to_photo)


def light(rng, shade):
    """Uneven light and, half the time, the soft shadow of a hand or a phone."""
    wide, tall = SIZE
    rows, columns = np.mgrid[:tall, :wide] / np.array([[[tall]], [[wide]]])
    way = rng.uniform(0, 2 * math.pi)
    along = (columns - 0.5) * math.cos(way) + (rows - 0.5) * math.sin(way)
    glow = 0.82 + shade * rng.uniform(0.1, 0.5) * along
    if rng.random() < 0.5:
        dark = np.zeros((tall, wide), np.float32)
        at = rng.uniform(0.1, 0.9, 2) * SIZE
        blob = at + rng.uniform(0.15, 0.4) * SIZE[0] * np.array(
            [(math.cos(a), math.sin(a)) for a in np.sort(rng.uniform(0, 2 * math.pi, 6))]
        )
        cv2.fillPoly(dark, [cv2.convexHull(blob.astype(np.int32))], 1.0)
        glow *= 1 - shade * rng.uniform(0.2, 0.4) * cv2.GaussianBlur(dark, (0, 0), 12)
    return np.clip(glow, 0.3, 1.0)


@pytest.fixture
def photograph():
    """Photograph a sheet."""
    return photographed
