"""What lies around a building on its sheet: neighbours, terraces, trees, cars, ground."""

import math

import numpy as np
from attrs import frozen

from estimator.synthesis.frame import Frame
from estimator.synthesis.layouts import Layout, Ring
from estimator.synthesis.paper import Colour, Paper
from estimator.synthesis.styles import Style
from estimator.synthesis.walls import hatching

Rng = np.random.Generator


@frozen(kw_only=True)
class Ground:
    """The sheet about one building: where the building lies and what may be drawn beside it."""

    paper: Paper
    layout: Layout
    frame: Frame
    style: Style
    rng: Rng

    def draw(self) -> None:
        """Draw a few things beside the building, before the building itself."""
        if self.rng.random() < 0.3:
            self._neighbours()
        if self.rng.random() < 0.3:
            self._terrace()
        if self.rng.random() < 0.15:
            self._trees()
        if self.rng.random() < 0.12:
            self._steps()

    def _side(self) -> tuple[Ring, Ring, float]:
        """Return an outer corner in pixels, the way along that wall, and the wall's length."""
        ring = self.frame.px(self.layout.outside())
        ends = np.roll(ring, -1, axis=0)
        lengths = np.hypot(*(ends - ring).T)
        at = int(self.rng.choice(len(ring), p=lengths / lengths.sum()))
        return ring[at], (ends[at] - ring[at]) / lengths[at], float(lengths[at])

    def _beside(self, deep: tuple[float, float], wide: tuple[float, float]) -> Ring:
        """Return a rectangle outside of a wall, so many metres deep, over a share of the wall."""
        start, along, length = self._side()
        out = np.array([along[1], -along[0]])
        width = self.rng.uniform(*wide) * length
        low = self.rng.uniform(0, max(0.0, length - width))
        depth = self.rng.uniform(*deep) * self.frame.px_per_m
        near, far = start + along * low, start + along * (low + width)
        return np.array([near, far, far + out * depth, near + out * depth])

    def _neighbours(self) -> None:
        """Draw rooms of someone else: thin or grey, named, or crossed as a lift."""
        rng = self.rng
        grey = int(rng.integers(150, 240))
        for _ in range(int(rng.integers(1, 4))):
            box = self._beside((1.2, 4.0), (0.15, 1.0))
            if rng.random() < 0.4:
                self.paper.fill(box, (grey, grey, grey))
            thick = float(rng.choice([1.0, 1.0, 2.0, 4.0]))
            self.paper.stroke([box], self._line(), thick, closed=True)
            if rng.random() < 0.35:
                self.paper.stroke([box[[0, 2]], box[[1, 3]]], self._line(), 1.0)
            elif rng.random() < 0.6:
                words = ["LIFT", "Flat 2", "Neighbour", "Stairwell", "Void", "Common hall", "12"]
                middle = box.mean(axis=0)
                spot = (float(middle[0]), float(middle[1]))
                self.paper.write(str(rng.choice(words)), spot, 10, self._line(), font="sans")

    def _terrace(self) -> None:
        rng = self.rng
        box = self._beside((1.0, 3.5), (0.3, 1.0))
        if rng.random() < 0.35:
            self.paper.fill(box, _pale(rng))
        if rng.random() < 0.6:
            pattern = str(rng.choice(["level", "upright", "diagonal", "cross"]))
            self.paper.stroke(hatching(box, pattern, rng.uniform(5, 14)), self._line(), 1.0)
        self.paper.stroke([box], self._line(), float(rng.choice([1.0, 1.0, 2.0])), closed=True)
        if rng.random() < 0.4:
            middle = box.mean(axis=0)
            word = str(rng.choice(["Terrace", "BALCONY", "Deck", "Patio", "Garden", "Porch"]))
            spot = (float(middle[0]), float(middle[1]))
            self.paper.write(word, spot, 11, self.style.ink, font=self.style.font)

    def _trees(self) -> None:
        rng = self.rng
        turn = np.linspace(0, 2 * math.pi, 15)[:-1]
        for _ in range(int(rng.integers(2, 7))):
            box = self._beside((1.0, 3.0), (0.1, 0.6))
            radius = rng.uniform(0.4, 1.3) * self.frame.px_per_m
            wobble = radius * rng.uniform(0.8, 1.1, len(turn))
            crown = box[2] + np.stack([np.cos(turn) * wobble, np.sin(turn) * wobble], axis=1)
            if rng.random() < 0.4:
                self.paper.fill(crown, _pale(rng))
            self.paper.stroke([crown], self._line(), 1.0, closed=True)
            spokes = [np.array([box[2], point]) for point in crown[:: int(rng.integers(1, 4))]]
            self.paper.stroke(spokes, self._line(), 1.0)

    def _steps(self) -> None:
        box = self._beside((0.8, 1.8), (0.08, 0.25))
        for share in np.linspace(0, 1, int(self.rng.integers(3, 8))):
            tread = np.array(
                [box[0] + (box[3] - box[0]) * share, box[1] + (box[2] - box[1]) * share]
            )
            self.paper.stroke([tread], self._line(), 1.0)

    def _line(self) -> Colour:
        return self.style.furniture_line


def _pale(rng: Rng) -> Colour:
    red, green, blue = (int(part) for part in rng.integers(185, 250, 3))
    return red, green, blue
