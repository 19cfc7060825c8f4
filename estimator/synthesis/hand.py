"""A pen held by hand: strokes waver, run past their corners and press unevenly."""

import itertools
from collections.abc import Sequence

import numpy as np
from attrs import frozen

from estimator.synthesis.layouts import Ring
from estimator.synthesis.lettering import CAPITAL_SHARE, PEN
from estimator.synthesis.paper import Colour, Paper, Shaping
from estimator.synthesis.pen_letters import pen_strokes


@frozen(kw_only=True)
class Hand(Shaping):
    """Draws on another sheet with an unsteady pen.

    Parameters
    ----------
    sway_px
        One standard deviation of how far a stroke strays.
    overrun_px
        The furthest a straight stroke runs past its ends.
    """

    paper: Paper
    rng: np.random.Generator
    sway_px: float = 1.0
    overrun_px: float = 5.0

    def fill(self, ring: Ring, colour: Colour, *, exact: bool = False) -> None:
        """Fill what a ring encloses; washes do not waver."""
        self.paper.fill(ring, colour, exact=exact)

    def stroke(
        self, lines: Sequence[Ring], colour: Colour, width: float, *, closed: bool = False
    ) -> None:
        """Draw each line as a hand would: stroke by stroke where it turns sharply."""
        for line in lines:
            points = np.concatenate([line, line[:1]]) if closed else line
            for part in _strokes(points):
                pressed = max(0.8, width * float(self.rng.normal(1.0, 0.14)))
                self.paper.stroke([self._wavering(part)], colour, pressed)

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
        """Letter a line in capitals by hand, a little off its place and size."""
        if font != PEN:
            self.paper.write(text, at, size, colour, font=font, upright=upright)
            return
        shift = self.rng.normal(0, 1.5, 2)
        spot = (at[0] + float(shift[0]), at[1] + float(shift[1]))
        size *= float(self.rng.normal(CAPITAL_SHARE, 0.02))
        for stroke in pen_strokes(text, spot, size, upright=upright):
            stray = self.rng.normal(0, size * 0.025, stroke.shape)
            self.paper.stroke([stroke + stray], colour, max(1.2, size * 0.11))

    def _wavering(self, line: Ring) -> Ring:
        steps = np.diff(line, axis=0)
        lengths = np.hypot(steps[:, 0], steps[:, 1])
        total = float(lengths.sum())
        if total < 4:
            return line
        along = np.concatenate([[0.0], np.cumsum(lengths)])
        count = max(2, int(total / np.clip(total / 12, 3, 14)))
        places = np.linspace(0, total, count + 1)
        points = np.stack([np.interp(places, along, line[:, axis]) for axis in (0, 1)], axis=1)
        if len(line) == 2:
            way = steps[0] / total
            ends = self.rng.uniform(-0.3, 1.0, 2) * min(self.overrun_px, total * 0.1)
            points[0] -= way * ends[0]
            points[-1] += way * ends[1]
        drift = np.cumsum(self.rng.normal(0, 1, points.shape), axis=0)
        drift -= np.linspace(0, 1, len(points))[:, None] * drift[-1]
        reach = self.sway_px * min(1.0, total / 120)
        return np.asarray(points + drift * reach / max(1.0, np.sqrt(count) / 2))


def _strokes(line: Ring) -> list[Ring]:
    """Return the line cut where it turns by more than 50 degrees."""
    steps = np.diff(line, axis=0)
    turn = np.arctan2(steps[:, 1], steps[:, 0])
    bend = np.abs((np.diff(turn) + np.pi) % (2 * np.pi) - np.pi)
    cuts = [0, *(np.flatnonzero(bend > np.radians(50)) + 1).tolist(), len(line) - 1]
    return [line[a : b + 1] for a, b in itertools.pairwise(cuts) if b > a]
