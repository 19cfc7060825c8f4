"""What a plan is drawn on: pixels with OpenCV, or a PDF page with reportlab.

Coordinates and widths are pixels of the finished picture, y down, and need not be whole.
"""

import itertools
from collections.abc import Sequence
from typing import Protocol

import cv2
import numpy as np
from attrs import frozen
from numpy.typing import NDArray
from reportlab.pdfgen.canvas import Canvas

from estimator.synthesis.layouts import Ring, inset
from estimator.synthesis.lettering import FONT_FILES, extent, stamp

Colour = tuple[int, int, int]
Picture = NDArray[np.uint8]
"""Red, green, blue, shape (H, W, 3)."""

_SHIFT = 4
_BLEED_PX = 0.68  # how far OpenCV's smoothed polygons reach beyond their edge, measured
POINTS_PER_INCH = 72


class Paper(Protocol):
    """A sheet that takes filled areas, strokes and lettering."""

    def fill(self, ring: Ring, colour: Colour, *, exact: bool = False) -> None:
        """Fill what a ring encloses; ``exact`` keeps its edge true to a fraction of a pixel."""

    def stroke(
        self, lines: Sequence[Ring], colour: Colour, width: float, *, closed: bool = False
    ) -> None:
        """Draw lines through the points."""

    def shapes(
        self,
        parts: Sequence[Ring],
        closed: Sequence[bool],
        fill: Colour | None,
        line: Colour,
        width: float,
    ) -> None:
        """Draw outlines one over the other, the closed ones filled."""

    def write(
        self,
        text: str,
        at: tuple[float, float],
        size: float,
        colour: Colour,
        *,
        font: str = "plain",
        upright: bool = False,
    ) -> None:
        """Letter one line centred at a point; upright reads from below upwards."""


class Shaping:
    """Draws shapes part by part with the fills and strokes of a paper."""

    def shapes(
        self: Paper,
        parts: Sequence[Ring],
        closed: Sequence[bool],
        fill: Colour | None,
        line: Colour,
        width: float,
    ) -> None:
        """Draw outlines one over the other, the closed ones filled."""
        for part, is_closed in zip(parts, closed, strict=True):
            if is_closed and fill is not None:
                self.fill(part, fill)
            self.stroke([part], line, width, closed=is_closed)


@frozen
class Pixels:
    """A sheet of pixels, drawn ``fine`` times larger than the finished picture."""

    canvas: Picture
    fine: int = 1

    @classmethod
    def blank(cls, width_px: int, height_px: int, colour: Colour, fine: int = 1) -> "Pixels":
        """Return an empty sheet of one colour."""
        canvas = np.empty((height_px * fine, width_px * fine, 3), np.uint8)
        cv2.rectangle(canvas, (0, 0), canvas.shape[1::-1], colour, cv2.FILLED)
        return cls(canvas, fine)

    def _grid(self, lines: Sequence[Ring]) -> list[NDArray[np.int32]]:
        if not lines:
            return []
        factor = self.fine * (1 << _SHIFT)
        nudge = (self.fine - 1) / 2 * (1 << _SHIFT)
        stops = list(itertools.accumulate(map(len, lines), initial=0))
        points = np.rint(np.concatenate(lines) * factor + nudge).astype(np.int32)
        return [points[start:stop] for start, stop in itertools.pairwise(stops)]

    def fill(self, ring: Ring, colour: Colour, *, exact: bool = False) -> None:
        """Fill what a ring encloses; ``exact`` keeps its edge true to a fraction of a pixel."""
        if exact:
            ring = inset(ring, _BLEED_PX / self.fine)
        cv2.fillPoly(self.canvas, self._grid([ring]), colour, cv2.LINE_AA, _SHIFT)

    def stroke(
        self, lines: Sequence[Ring], colour: Colour, width: float, *, closed: bool = False
    ) -> None:
        """Draw lines through the points."""
        thickness = max(1, round(width * self.fine))
        cv2.polylines(
            self.canvas, self._grid(lines), closed, colour, thickness, cv2.LINE_AA, _SHIFT
        )

    def shapes(
        self,
        parts: Sequence[Ring],
        closed: Sequence[bool],
        fill: Colour | None,
        line: Colour,
        width: float,
    ) -> None:
        """Draw outlines one over the other, the closed ones filled."""
        thickness = max(1, round(width * self.fine))
        for part, is_closed in zip(self._grid(parts), closed, strict=True):
            if is_closed and fill is not None:
                cv2.fillPoly(self.canvas, [part], fill, cv2.LINE_AA, _SHIFT)
            cv2.polylines(self.canvas, [part], is_closed, line, thickness, cv2.LINE_AA, _SHIFT)

    def write(
        self,
        text: str,
        at: tuple[float, float],
        size: float,
        colour: Colour,
        *,
        font: str = "plain",
        upright: bool = False,
    ) -> None:
        """Letter one line centred at a point; upright reads from below upwards."""
        mask = stamp(text, max(6, round(size * self.fine)), font)
        if upright:
            mask = np.rot90(mask)
        height, width = mask.shape
        left, top = round(at[0] * self.fine - width / 2), round(at[1] * self.fine - height / 2)
        rows = slice(max(top, 0), max(top + height, 0))
        columns = slice(max(left, 0), max(left + width, 0))
        part = self.canvas[rows, columns]
        if part.size == 0:
            return
        mask = mask[rows.start - top :, columns.start - left :][: part.shape[0], : part.shape[1]]
        share = mask.astype(np.uint16)[..., None]
        part[:] = (part * (255 - share) + np.array(colour, np.uint16) * share + 127) // 255

    def finished(self) -> Picture:
        """Return the picture at its own size."""
        if self.fine == 1:
            return self.canvas
        height, width = self.canvas.shape[:2]
        size = (width // self.fine, height // self.fine)
        return np.asarray(cv2.resize(self.canvas, size, interpolation=cv2.INTER_AREA), np.uint8)


@frozen
class Page(Shaping):
    """A PDF page of vectors; ``px_per_inch`` says how fine a pixel is."""

    canvas: Canvas
    height_px: int
    px_per_inch: float

    @property
    def _unit(self) -> float:
        return POINTS_PER_INCH / self.px_per_inch

    def _points(self, line: Ring) -> list[tuple[float, float]]:
        return [
            (round(x * self._unit, 3), round((self.height_px - y) * self._unit, 3)) for x, y in line
        ]

    def fill(self, ring: Ring, colour: Colour, *, exact: bool = False) -> None:  # noqa: ARG002
        """Fill what a ring encloses; vectors are always exact."""
        self.canvas.setFillColorRGB(*(part / 255 for part in colour))
        self._trace([ring], closed=True, stroke=0, fill=1)

    def stroke(
        self, lines: Sequence[Ring], colour: Colour, width: float, *, closed: bool = False
    ) -> None:
        """Draw lines through the points."""
        self.canvas.setStrokeColorRGB(*(part / 255 for part in colour))
        self.canvas.setLineWidth(width * self._unit)
        self._trace(lines, closed=closed, stroke=1, fill=0)

    def _trace(self, lines: Sequence[Ring], *, closed: bool, stroke: int, fill: int) -> None:
        path = self.canvas.beginPath()
        for line in lines:
            first, *rest = self._points(line)
            path.moveTo(*first)
            for point in rest:
                path.lineTo(*point)
            if closed:
                path.close()
        self.canvas.drawPath(path, stroke=stroke, fill=fill, fillMode=0)

    def write(
        self,
        text: str,
        at: tuple[float, float],
        size: float,
        colour: Colour,
        *,
        font: str = "plain",
        upright: bool = False,
    ) -> None:
        """Letter one line centred at a point; upright reads from below upwards."""
        width, height = extent(text, size, font)
        ((x, y),) = self._points(np.array([at]))
        self.canvas.saveState()
        self.canvas.translate(x, y)
        if upright:
            self.canvas.rotate(90)
        self.canvas.setFillColorRGB(*(part / 255 for part in colour))
        self.canvas.setFont(FONT_FILES[font].stem, size * self._unit)
        self.canvas.drawString(-width / 2 * self._unit, -height / 2 * self._unit, text)
        self.canvas.restoreState()
