"""What every pixel of a drawn plan truly shows: the answer a reading network is trained on."""

import cv2
import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from estimator.plan.opening import OpeningKind
from estimator.reading.sight.classes import (
    CONTENTS,
    DOOR,
    OUTSIDE,
    PASSAGE,
    ROOM,
    STAIRS,
    SWING,
    WALL,
    WINDOW,
)
from estimator.synthesis.balconies import Balcony, edge_of
from estimator.synthesis.frame import Frame
from estimator.synthesis.layouts import Layout, Ring, inset
from estimator.synthesis.openings import door_manner, swept
from estimator.synthesis.styles import Style
from estimator.synthesis.symbols import seen_as

Labels = NDArray[np.uint8]
"""Number of one of the network's classes, shape (H, W)."""

Instances = NDArray[np.int16]
"""Number of the room from 1, 0 where there is none, shape (H, W)."""

_SHIFT = 4
_LEAST_WALL_PX = 2.0  # thinner walls are marked so thick, or rooms would merge
_BLEED_PX = 0.5  # how far OpenCV's hard polygons reach beyond their edge


@frozen
class Truth:
    """The labels of one picture; ``contents`` holds numbers of the network's contents."""

    labels: Labels
    instances: Instances
    contents: Labels

    @classmethod
    def blank(cls, width_px: int, height_px: int) -> "Truth":
        """Return the truth of an empty sheet."""
        shape = (height_px, width_px)
        return cls(np.zeros(shape, np.uint8), np.zeros(shape, np.int16), np.zeros(shape, np.uint8))

    def add(
        self,
        layout: Layout,
        frame: Frame,
        balconies: tuple[Balcony, ...] = (),
        *,
        solid_shafts: bool,
    ) -> None:
        """Mark a layout: its walls, then its rooms, then what fills the gaps; in place.

        A shaft is wall when it is drawn solid, and outside when it is only walled about.
        """
        first = int(self.instances.max()) + 1
        thin = max(0.0, _LEAST_WALL_PX - layout.inner_wall * frame.px_per_m) / 2
        self._mark(frame.px(layout.outside()), WALL, 0)
        for balcony in balconies:
            self._mark(inset(frame.px(edge_of(layout, balcony)), -_LEAST_WALL_PX / 4), WALL, 0)
        number = first - 1
        for space in layout.spaces:
            number += space.is_room
            ring = inset(frame.px(layout.inside(space)), thin)
            if space.is_room:
                self._mark(ring, ROOM, number)
            elif not solid_shafts:
                self._mark(ring, OUTSIDE, 0)
        for corners in layout.blocks:
            self._mark(frame.px(np.array(corners)), WALL, 0)
        for gap in layout.gaps:
            shows = WINDOW if gap.kind is OpeningKind.WINDOW else DOOR
            self._mark(frame.px(gap.band()), shows, 0)

    def add_contents(self, layout: Layout, frame: Frame, style: Style) -> None:
        """Mark what stands and moves on a layout's floors; in place."""
        uses = {space.name: space.use for space in layout.spaces}
        for space in layout.spaces:
            if space.use == "stairs":
                self._fill(frame.px(layout.inside(space)), STAIRS)
        for piece in layout.pieces:
            seen = seen_as(piece.kind)
            if seen:
                self._fill(frame.px(piece.footprint()), CONTENTS.index(seen))
        for number, gap in enumerate(layout.gaps):
            if gap.kind is OpeningKind.PASSAGE:
                self._fill(frame.px(gap.band()), PASSAGE)
            elif gap.kind is OpeningKind.DOOR:
                for sector in swept(gap, door_manner(style, uses, gap, number), style):
                    self._fill(frame.px(sector), SWING)

    def _mark(self, ring: Ring, shows: int, number: int) -> None:
        grid = np.rint(inset(ring, _BLEED_PX) * (1 << _SHIFT)).astype(np.int32)
        cv2.fillPoly(self.labels, [grid], shows, cv2.LINE_8, _SHIFT)
        cv2.fillPoly(self.instances, [grid], number, cv2.LINE_8, _SHIFT)

    def _fill(self, ring: Ring, shows: int) -> None:
        grid = np.rint(ring * (1 << _SHIFT)).astype(np.int32)
        cv2.fillPoly(self.contents, [grid], shows, cv2.LINE_8, _SHIFT)
