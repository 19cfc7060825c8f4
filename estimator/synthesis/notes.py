"""What is written and ruled over a plan: names, sizes, grid axes, arrows, dashed lines."""

import math

import numpy as np
from attrs import frozen

from estimator.synthesis.annotations import Dimensions, draw_dimensions, floor_area, size
from estimator.synthesis.frame import Frame
from estimator.synthesis.layouts import Layout, Ring, area
from estimator.synthesis.lettering import extent
from estimator.synthesis.paper import Colour, Paper
from estimator.synthesis.styles import Style
from estimator.synthesis.walls import hatching
from estimator.synthesis.words import words

Rng = np.random.Generator

_PITCH = 1.25  # from one line of letters to the next, in their size
# Letters are no smaller; of the names that would need it most are left out, the rest overflow.
_LEAST_LETTER_PX = 6.0
_SKIPPED = 0.85


@frozen(kw_only=True)
class Notes:
    """Letters and rules over buildings after they are drawn."""

    paper: Paper
    style: Style
    rng: Rng

    def write(self, layout: Layout, frame: Frame) -> None:
        """Write over and around one building."""
        rng = self.rng
        if rng.random() < 0.85:
            self._names(layout, frame)
        if rng.random() < 0.35:
            self._dimensions(layout, frame)
        if rng.random() < 0.15:
            self._spans(layout, frame)
        if rng.random() < 0.15:
            self._lights(layout, frame)
        if rng.random() < 0.12:
            self._axes(layout, frame)
        if rng.random() < 0.2:
            self._entrance(layout, frame)
        if rng.random() < 0.12:
            self._overhead(layout, frame)

    def _names(self, layout: Layout, frame: Frame) -> None:
        rng, style = self.rng, self.style
        names = words().names[int(rng.integers(len(words().names)))]
        kind = str(
            rng.choice(["name", "name", "size", "size", "area", "both", "twice", "number", "tag"])
        )
        colour = style.ink if rng.random() < 0.85 else any_colour(rng)
        for number, space in enumerate(layout.spaces):
            if not space.is_room or rng.random() < 0.12:
                continue
            room = frame.px(layout.inside(space))
            wide, deep = (float(part) for part in np.ptp(room, axis=0))
            if min(wide, deep) < 12:
                continue
            middle = room.mean(axis=0) if len(room) == 4 else _middle(room)
            middle = middle + rng.uniform(-0.12, 0.12, 2) * (wide, deep)
            known = names.get(space.use) or names["room"]
            name = known[int(rng.integers(len(known)))]
            name = name.upper() if style.capitals else name
            square_metres = area(room) / frame.px_per_m**2
            across = size(wide / frame.px_per_m, deep / frame.px_per_m, style.units)
            lines = {
                "name": [name],
                "size": [name, across],
                "area": [name, floor_area(square_metres, style.units)],
                "both": [name, across, floor_area(square_metres, style.units)],
                "twice": [
                    name,
                    size(wide / frame.px_per_m, deep / frame.px_per_m, "ft"),
                    size(wide / frame.px_per_m, deep / frame.px_per_m, "plain m"),
                ],
                "number": [f"{int(rng.integers(1, 4))}{number:02d}"],
                "tag": [f"{number + 1}"],
            }[kind]
            self._label(lines, middle, (wide, deep), colour, boxed=kind in ("number", "tag"))

    def _label(
        self,
        lines: list[str],
        middle: Ring,
        room: tuple[float, float],
        colour: Colour,
        *,
        boxed: bool,
    ) -> None:
        style = self.style
        letter = style.letter_px
        widest = max(extent(line, letter, style.font)[0] for line in lines)
        upright = widest > room[0] * 1.05 and room[1] > room[0] * 1.4
        span = room[1] if upright else room[0]
        if widest > span * 0.95:
            letter *= span * 0.95 / widest
        if letter < _LEAST_LETTER_PX:
            if self.rng.random() < _SKIPPED:
                return
            letter = _LEAST_LETTER_PX
        lines = lines[: max(1, int((room[0] if upright else room[1]) / (letter * _PITCH)))]
        across = 1 if upright else 0
        for index, line in enumerate(lines):
            at = np.array(middle, float)
            at[1 - across] += (index - (len(lines) - 1) / 2) * letter * _PITCH
            spot = (float(at[0]), float(at[1]))
            self.paper.write(line, spot, letter, colour, font=style.font, upright=upright)
        if boxed and self.rng.random() < 0.7:
            half = np.array([extent(lines[0], letter, style.font)[0] / 2 + 4, letter * 0.75])
            if self.rng.random() < 0.5:
                turn = np.linspace(0, 2 * math.pi, 25)[:-1]
                ring = middle + np.stack([np.cos(turn), np.sin(turn)], axis=1) * float(half.max())
            else:
                ring = middle + half * np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)])
            self.paper.stroke([ring], colour, 1.0, closed=True)

    def _dimensions(self, layout: Layout, frame: Frame) -> None:
        rng = self.rng
        sides = [side for side in ("north", "west", "south", "east") if rng.random() < 0.5]
        manner = Dimensions(
            sides=tuple(sides),
            mark=str(rng.choice(["tick", "arrow", "bare"])),
            first_px=float(rng.uniform(8, 26)),
            step_px=float(rng.uniform(11, 20)),
            letter_px=float(rng.uniform(7, 11)),
        )
        draw_dimensions(self.paper, layout, frame, self.style, manner)

    def _spans(self, layout: Layout, frame: Frame) -> None:
        """Draw lengths inside some rooms from wall to wall."""
        for space in layout.spaces:
            if self.rng.random() < 0.5 or not space.is_room or len(space.corners) != 4:
                continue
            room = frame.px(layout.inside(space))
            share = self.rng.uniform(0.15, 0.85)
            first = int(self.rng.integers(2))
            one, two, three, four = np.roll(room, first, axis=0)
            line = np.array([one + (two - one) * share, four + (three - four) * share])
            bare = self.rng.random() < 0.4
            if not bare:
                self.paper.stroke([line], self.style.furniture_line, 1.0)
            if bare or self.rng.random() < 0.6:
                way = (line[1] - line[0]) / max(1.0, float(np.hypot(*(line[1] - line[0]))))
                for end, sign in ((line[0], 1), (line[1], -1)):
                    side = np.array([-way[1], way[0]])
                    head = np.array(
                        [end, end + way * 6 * sign + side * 2.5, end + way * 6 * sign - side * 2.5]
                    )
                    self.paper.fill(head, self.style.furniture_line)

    def _lights(self, layout: Layout, frame: Frame) -> None:
        turn = np.linspace(0, 2 * math.pi, 9)[:-1]
        circle = np.stack([np.cos(turn), np.sin(turn)], axis=1)
        for space in layout.spaces:
            room = frame.px(layout.inside(space))
            low, high = room.min(axis=0), room.max(axis=0)
            for _ in range(int(self.rng.integers(0, 4))):
                at = low + (high - low) * self.rng.uniform(0.15, 0.85, 2)
                radius = float(self.rng.uniform(2, 6))
                self.paper.stroke(
                    [at + circle * radius], self.style.furniture_line, 1.0, closed=True
                )

    def _axes(self, layout: Layout, frame: Frame) -> None:
        """Draw numbered grid axes across the whole building, dashed, with bubbles at an end."""
        low, high = (edge for edge in _box(frame.px(layout.outside())))
        for axis in (0, 1):
            count = int(self.rng.integers(2, 7))
            for index, at in enumerate(np.linspace(low[axis], high[axis], count)):
                start, end = low - 22, high + 8
                start[axis] = end[axis] = at
                self.paper.stroke(dashes(start, end, 9, 4), self.style.furniture_line, 1.0)
                turn = np.linspace(0, 2 * math.pi, 17)[:-1]
                bubble = start + np.stack([np.cos(turn), np.sin(turn)], axis=1) * 8
                self.paper.stroke([bubble], self.style.ink, 1.0, closed=True)
                text = chr(65 + index) if axis else str(index + 1)
                spot = (float(start[0]), float(start[1]))
                self.paper.write(text, spot, 9, self.style.ink, font=self.style.font)

    def _entrance(self, layout: Layout, frame: Frame) -> None:
        for gap in layout.gaps:
            if gap.other is None and gap.manner and self.rng.random() < 0.7:
                middle = np.array(frame.spot(gap.place(gap.width / 2, -gap.back)))
                out = -np.array(gap.inward)
                side = np.array([-out[1], out[0]])
                reach = float(self.rng.uniform(8, 18))
                tip = middle + out * 4
                head = np.array(
                    [
                        tip,
                        tip + out * reach * 0.5 + side * reach * 0.4,
                        tip + out * reach * 0.5 - side * reach * 0.4,
                    ]
                )
                self.paper.fill(head, self.style.ink)
                self.paper.stroke([np.array([tip, tip + out * reach])], self.style.ink, 2.0)
                if self.rng.random() < 0.5:
                    spot = tip + out * (reach + 7)
                    self.paper.write("IN", (float(spot[0]), float(spot[1])), 8, self.style.ink)

    def _overhead(self, layout: Layout, frame: Frame) -> None:
        """Draw dashed lines of what hangs above: beams, eaves, vaults."""
        low, high = _box(frame.px(layout.outside()))
        for _ in range(int(self.rng.integers(1, 5))):
            start, end = (low + (high - low) * self.rng.random(2) for _ in range(2))
            if self.rng.random() < 0.8:
                end[int(self.rng.integers(2))] = start[int(self.rng.integers(2))]
            self.paper.stroke(dashes(start, end, 6, 4), self.style.furniture_line, 1.0)


def dashes(start: Ring, end: Ring, on: float, off: float) -> list[Ring]:
    """Return a straight line as dashes."""
    length = float(np.hypot(*(end - start)))
    if length < 1:
        return []
    way = (end - start) / length
    places = np.arange(0, length, on + off)
    return [np.array([start + way * at, start + way * min(at + on, length)]) for at in places]


def _box(ring: Ring) -> tuple[Ring, Ring]:
    return ring.min(axis=0), ring.max(axis=0)


def _middle(ring: Ring) -> Ring:
    """Return a point well inside a ring: the middle of its longest level chord halfway down."""
    chords = hatching(ring, "level", float(np.ptp(ring[:, 1])) / 3)
    if not chords:
        return np.asarray(ring.mean(axis=0))
    return np.asarray(max(chords, key=lambda chord: abs(chord[1, 0] - chord[0, 0])).mean(axis=0))


def any_colour(rng: Rng) -> Colour:
    """Return a colour that shows on white."""
    red, green, blue = (int(part) for part in rng.integers(0, 220, 3))
    return red, green, blue
