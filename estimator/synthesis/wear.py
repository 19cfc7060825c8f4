"""Wears a training picture, with its labels, as scanners, cameras, copies and time do."""

from collections.abc import Callable
from typing import Any

import cv2
import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from estimator.synthesis.degradation import cloud, turned
from estimator.synthesis.labels import Truth
from estimator.synthesis.paper import Picture

Rng = np.random.Generator

_GRAIN = np.random.default_rng(0).standard_normal((1024, 1024), dtype=np.float32)
"""Noise that every picture takes a piece of: drawing it anew costs more than all else."""


@frozen(kw_only=True)
class Wear:
    """How hard a picture was used: 0 leaves it as drawn, 1 is a bad photo of a bad copy."""

    rng: Rng
    hardness: float

    def warp(self, picture: Picture, truth: Truth) -> tuple[Picture, Truth]:
        """Return picture and labels turned, seen askew or lying on a table."""
        rng = self.rng
        side = picture.shape[0]
        matrix = np.eye(3)
        if rng.random() < 0.25 + 0.4 * self.hardness:
            degrees = float(rng.normal(0, 0.6 + 2.5 * self.hardness))
            matrix = turned((side, side), degrees, float(rng.uniform(0.92, 1.0)))
        if rng.random() < 0.5 * self.hardness:
            corners = np.array([(0, 0), (side, 0), (side, side), (0, side)], np.float32)
            moved = corners + rng.uniform(-0.06, 0.06, (4, 2)).astype(np.float32) * side
            matrix = cv2.getPerspectiveTransform(corners, moved) @ matrix
        if (matrix == np.eye(3)).all():
            return picture, truth
        edge = [int(part) for part in picture[0, 0]]
        if rng.random() < 0.4:  # the table beyond the sheet
            edge = [int(part) for part in rng.integers(20, 180) + rng.integers(-15, 16, 3)]
        size = (side, side)
        flat = cv2.warpPerspective(picture, matrix, size, flags=cv2.INTER_LINEAR, borderValue=edge)
        return np.asarray(flat, np.uint8), _moved(
            truth,
            lambda raster: cv2.warpPerspective(raster, matrix, size, flags=cv2.INTER_NEAREST),
        )

    def photograph(self, picture: Picture, truth: Truth) -> tuple[Picture, Truth]:
        """Return picture and labels as a camera sees the sheet lying on a table, under a lamp."""
        rng = self.rng
        side = picture.shape[0]
        corners = np.array([(0, 0), (side, 0), (side, side), (0, side)], np.float32)
        inward = 1 - 2 * corners / side
        drawn_in = rng.uniform(0.0, 0.1, (4, 2)).astype(np.float32) * inward * side
        matrix = cv2.getPerspectiveTransform(corners, corners + drawn_in)
        matrix = matrix @ turned((side, side), float(rng.normal(0, 3)), 1.0)
        table = _table(side, rng)
        cv2.warpPerspective(
            picture,
            matrix,
            (side, side),
            dst=table,
            flags=cv2.INTER_LINEAR,
            borderMode=cv2.BORDER_TRANSPARENT,
        )
        along = np.linspace(0, 1, side, dtype=np.float32)
        fall = rng.uniform(-0.35, 0.35, 2).astype(np.float32)
        light = 1 - np.abs(fall).sum() / 2 + fall[0] * along + fall[1] * along[:, None]
        if rng.random() < 0.5:  # a shadow falls across
            way, off = rng.normal(0, 1, 2).astype(np.float32), np.float32(rng.uniform(-0.4, 0.4))
            depth = (along * way[0] + along[:, None] * way[1] + off) * np.float32(
                rng.uniform(3, 30)
            )
            light *= 1 - np.float32(rng.uniform(0.1, 0.4)) / (1 + np.exp(-np.clip(depth, -80, 80)))
        tint = (1 - 0.12 * rng.random(3)).astype(np.float32)
        lit = _clipped(np.multiply(table, light[..., None] * tint, dtype=np.float32))
        return lit, _moved(
            truth,
            lambda raster: cv2.warpPerspective(
                raster, matrix, (side, side), flags=cv2.INTER_NEAREST
            ),
        )

    def tremble(self, picture: Picture, truth: Truth) -> tuple[Picture, Truth]:
        """Return picture and labels with every line wavering, as drawn by hand."""
        shape = picture.shape[:2]
        reach = float(self.rng.uniform(0.6, 2.2))
        grain = float(self.rng.uniform(18, 60))
        along = np.arange(shape[0], dtype=np.float32)
        rows = along[:, None] + cloud(shape, grain, self.rng) * np.float32(reach)
        columns = along + cloud(shape, grain, self.rng) * np.float32(reach)
        return (
            np.asarray(
                cv2.remap(
                    picture, columns, rows, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE
                ),
                np.uint8,
            ),
            _moved(truth, lambda raster: cv2.remap(raster, columns, rows, cv2.INTER_NEAREST)),
        )

    def spoil(self, picture: Picture) -> Picture:
        """Return the picture after scanning, copying, fading, lighting and compression."""
        rng, hard = self.rng, self.hardness
        if rng.random() < 0.2:
            picture = self._published(picture)
        elif rng.random() < 0.25 + 0.3 * hard:
            picture = self._coarse(picture)
        if rng.random() < 0.2 * hard:
            picture = self._broken(picture)
        if rng.random() < 0.15 + 0.5 * hard:
            sigma = float(rng.uniform(0.3, 0.5 + 1.2 * hard))
            picture = np.asarray(cv2.GaussianBlur(picture, (0, 0), sigma), np.uint8)
        if rng.random() < 0.2 + 0.3 * hard:
            picture = self._faded(picture)
        if rng.random() < 0.6 * hard:
            picture = self._lit(picture)
        if rng.random() < 0.15 + 0.6 * hard:
            picture = self._grainy(picture)
        if rng.random() < 0.1:
            grey = cv2.cvtColor(picture, cv2.COLOR_RGB2GRAY)
            picture = np.asarray(cv2.cvtColor(grey, cv2.COLOR_GRAY2RGB), np.uint8)
        if rng.random() < 0.06 * hard:
            tone = picture.min(axis=2) > int(rng.integers(90, 190))
            picture = np.repeat(tone[..., None], 3, axis=2).astype(np.uint8) * 255
        if rng.random() < 0.3 + 0.5 * hard:
            picture = _packed(picture, int(rng.integers(25 if hard > 0.4 else 55, 96)))
        return picture

    def _published(self, picture: Picture) -> Picture:
        """Return the picture as a page on the web shows it, small and packed, enlarged again."""
        side = picture.shape[0]
        small = int(side * self.rng.uniform(0.45, 0.85))
        way = [cv2.INTER_AREA, cv2.INTER_LINEAR, cv2.INTER_CUBIC][int(self.rng.integers(3))]
        shrunk = np.asarray(cv2.resize(picture, (small, small), interpolation=way), np.uint8)
        if self.rng.random() < 0.7:
            shrunk = _packed(shrunk, int(self.rng.integers(50, 96)))
        return np.asarray(cv2.resize(shrunk, (side, side), interpolation=cv2.INTER_CUBIC), np.uint8)

    def _coarse(self, picture: Picture) -> Picture:
        """Return the picture shrunk and enlarged again."""
        side = picture.shape[0]
        small = int(side * self.rng.uniform(0.75 - 0.3 * self.hardness, 0.98))
        ways = [cv2.INTER_AREA, cv2.INTER_LINEAR, cv2.INTER_NEAREST]
        way = ways[int(self.rng.choice(3, p=[0.5, 0.4, 0.1]))]
        shrunk = cv2.resize(picture, (small, small), interpolation=way)
        back = [cv2.INTER_LINEAR, cv2.INTER_CUBIC][int(self.rng.integers(2))]
        return np.asarray(cv2.resize(shrunk, (side, side), interpolation=back), np.uint8)

    def _broken(self, picture: Picture) -> Picture:
        """Return the picture with thin ink missing here and there."""
        worn = cv2.dilate(picture, np.ones((2, 2), np.uint8))
        mask = cloud(picture.shape[:2], float(self.rng.uniform(3, 14)), self.rng) > 1.0
        return np.where(mask[..., None], worn, picture)

    def _faded(self, picture: Picture) -> Picture:
        low, high = self.rng.uniform(0, 70), self.rng.uniform(200, 255)
        gamma = self.rng.uniform(0.7, 1.5)
        table = low + (np.arange(256) / 255) ** gamma * (high - low)
        return np.asarray(cv2.LUT(picture, np.clip(table, 0, 255).astype(np.uint8)), np.uint8)

    def _lit(self, picture: Picture) -> Picture:
        """Return the picture on tinted paper in uneven light."""
        side = picture.shape[0]
        coarseness = side / float(self.rng.uniform(1.0, 2.5))
        light = 1 - 0.1 * self.hardness * np.abs(cloud((side, side), coarseness, self.rng))
        tint = 1 - 0.12 * self.hardness * self.rng.random(3, dtype=np.float32)
        return _clipped(np.multiply(picture, light[..., None] * tint, dtype=np.float32))

    def _grainy(self, picture: Picture) -> Picture:
        side = picture.shape[0]
        if side > _GRAIN.shape[0]:
            grain = self.rng.standard_normal((side, side), dtype=np.float32)
        else:
            top, left = (int(at) for at in self.rng.integers(0, _GRAIN.shape[0] - side + 1, 2))
            grain = _GRAIN[top : top + side, left : left + side]
        strength = np.float32(self.rng.uniform(1.5, 4 + 14 * self.hardness))
        return _clipped(np.add(picture, (grain * strength)[..., None], dtype=np.float32))


def _table(side_px: int, rng: Rng) -> Picture:
    """Return the top of a table: one colour, or a grain along one way."""
    colour = rng.uniform(20, 190) + rng.uniform(-25, 25, 3)
    grain = cloud((side_px, side_px), float(rng.uniform(3, 20)), rng)
    if rng.random() < 0.6:
        narrow = np.ascontiguousarray(grain[:, : max(2, side_px // int(rng.integers(15, 60)))])
        grain = np.asarray(cv2.resize(narrow, (side_px, side_px)), np.float32)
    top = np.asarray(grain[..., None] * np.float32(rng.uniform(0, 14)) + colour.astype(np.float32))
    return _clipped(top)


def toned(picture: Picture, rng: Rng) -> Picture:
    """Return the picture on grey or tinted stock, some of it printed with fine dots."""
    tint = (rng.uniform(0.3, 0.85) + rng.uniform(-0.04, 0.04, 3)).astype(np.float32)
    stock = np.multiply(picture, tint, dtype=np.float32)
    if rng.random() < 0.6:
        step = int(rng.integers(3, 7))
        depth = np.float32(rng.uniform(-25, 25))
        stock[::step, ::step] += depth
        stock[step // 2 :: step, step // 2 :: step] += depth
    return _clipped(stock)


def _packed(picture: Picture, quality: int) -> Picture:
    """Return the picture after compression of a quality from 0 to 100."""
    _, packed = cv2.imencode(".jpg", picture, [cv2.IMWRITE_JPEG_QUALITY, quality])
    return np.asarray(cv2.imdecode(packed, cv2.IMREAD_COLOR), np.uint8)


def _moved(truth: Truth, move: Callable[[NDArray[Any]], NDArray[Any]]) -> Truth:
    return Truth(move(truth.labels), move(truth.instances), move(truth.contents))


def _clipped(values: NDArray[np.float32]) -> Picture:
    return np.clip(values, 0, 255).astype(np.uint8)
