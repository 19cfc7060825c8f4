"""Opens doors, passages and windows in the walls of an invented floor."""

from collections.abc import Mapping, Set

import numpy as np
from attrs import evolve, field, frozen

from estimator.measures import Metres
from estimator.plan.opening import OpeningKind, Point
from estimator.synthesis.grids import OUTSIDE, Run
from estimator.synthesis.layouts import Gap

_SHAFT = "shaft"
_LEAST_DOOR = 0.55
_CLOSET_DOORS = ("double", "leaf", "double", "folding", "sliding", "screen")


@frozen
class Piercing:
    """Opens the walls of one floor; habits of its builder are drawn once.

    Parameters
    ----------
    uses
        Use of each room by its number.
    """

    rng: np.random.Generator
    uses: Mapping[int, str]
    inner: Metres
    outer: Metres
    leaf: Metres = field(init=False)
    glazing: float = field(init=False)
    window: Metres = field(init=False)
    passages: float = field(init=False)
    closet_doors: tuple[str, ...] = field(init=False)

    def __attrs_post_init__(self) -> None:
        rng = self.rng
        object.__setattr__(self, "leaf", float(rng.uniform(0.72, 0.95)))
        object.__setattr__(self, "glazing", float(rng.choice([0.0, 0.5, 0.85, 0.85, 0.95])))
        object.__setattr__(self, "window", float(rng.uniform(0.8, 2.4)))
        ways = [*_CLOSET_DOORS, str(rng.choice(_CLOSET_DOORS))]
        liked = tuple(ways) if rng.random() < 0.4 else (str(rng.choice(ways)),)
        object.__setattr__(self, "closet_doors", liked)
        object.__setattr__(self, "passages", float(rng.choice([0.0, 0.08, 0.25])))

    def gaps(self, walls: list[Run], corridors: Set[int]) -> tuple[Gap, ...]:
        """Return doors that lead to every room, some more, and windows."""
        inside = [wall for wall in walls if wall.beyond != OUTSIDE and not self._blind(wall)]
        outside = [wall for wall in walls if wall.beyond == OUTSIDE and not self._blind(wall)]
        opened = self._ways(inside, corridors)
        doors = [gap for wall in opened if (gap := self._inner_opening(wall, corridors))]
        entrances = self._entrances(outside, corridors)
        doors += [gap for wall in entrances if (gap := self._entrance(wall))]
        windows = [gap for wall in outside if wall not in entrances for gap in self._windows(wall)]
        return (*doors, *windows)

    def _blind(self, wall: Run) -> bool:
        return _SHAFT in (self.uses[wall.room], self.uses.get(wall.beyond))

    def _ways(self, walls: list[Run], corridors: Set[int]) -> list[Run]:
        """Return a wall towards every room from one already reached, and a few besides."""
        long = [wall for wall in walls if wall.length > _LEAST_DOOR + self.inner + 0.1]
        if not long:
            return []
        hub = next(iter(corridors), long[0].room)
        reached, ways = {hub}, []
        order = self.rng.random(len(long))
        eager = {
            wall: float(at)
            - 1.5 * bool({wall.room, wall.beyond} & corridors)
            + 3.0 * (self.uses[wall.room] == self.uses.get(wall.beyond) == "closet")
            for wall, at in zip(long, order, strict=True)
        }
        while True:
            open_to = [w for w in long if (w.room in reached) != (w.beyond in reached)]
            if not open_to:
                break
            wall = min(open_to, key=lambda wall: eager[wall])
            ways.append(wall)
            reached |= {wall.room, wall.beyond}
        spare = [wall for wall in long if wall not in ways and self.rng.random() < 0.07]
        return ways + spare

    def _inner_opening(self, wall: Run, corridors: Set[int]) -> Gap | None:
        rng = self.rng
        closet = "closet" in (self.uses[wall.room], self.uses.get(wall.beyond))
        roomy = wall.length - self.inner - 0.2
        manner = "leaf"
        width = self.leaf * rng.uniform(0.85, 1.1)
        chance = rng.random()
        if closet:
            manner = str(rng.choice(self.closet_doors))
            width = roomy * rng.uniform(0.7, 1.15) if manner != "leaf" else width
            width = min(width, wall.length - self.inner - 0.12, 3.0)
            roomy = max(roomy, width)
        elif chance < self.passages:
            manner = ""
            width = rng.uniform(0.8, 2.4) if rng.random() < 0.7 else roomy * rng.uniform(0.6, 1.0)
        elif chance < self.passages + 0.05:
            manner, width = "sliding", rng.uniform(0.8, 1.8)
        elif chance < self.passages + 0.13:
            manner, width = "double", rng.uniform(1.2, 1.9)
        elif chance < self.passages + 0.15:
            manner, width = "folding", rng.uniform(0.8, 1.8)
        width = min(width, roomy)
        if width < _LEAST_DOOR:
            return None
        kind = OpeningKind.DOOR if manner else OpeningKind.PASSAGE
        gap = self._gap(wall, kind, self._spot(wall, width), width, manner)
        into_corridor = wall.room in corridors
        opens_in = bool(rng.random() < (0.15 if into_corridor else 0.85))
        if closet:
            opens_in = self.uses[wall.room] != "closet"  # leaves of closets open away from them
        return evolve(gap, opens_inward=opens_in, hinge_at_start=bool(rng.random() < 0.5))

    def _spot(self, wall: Run, width: Metres) -> float:
        """Return where along a wall a door begins: mostly near a corner."""
        margin = self.inner / 2 + 0.06
        free = max(0.0, wall.length - 2 * margin - width)
        nearness = self.rng.choice([0.0, 0.05, 0.15, 0.5, float(self.rng.random())])
        share = nearness if self.rng.random() < 0.5 else 1 - nearness
        return margin + free * float(share)

    def _entrances(self, walls: list[Run], corridors: Set[int]) -> list[Run]:
        count = int(self.rng.choice([0, 1, 1, 2, 3]))
        fit = [wall for wall in walls if wall.length > 1.2 + self.inner]
        fit.sort(key=lambda wall: (wall.room not in corridors, self.rng.random()))
        return fit[:count]

    def _entrance(self, wall: Run) -> Gap | None:
        rng = self.rng
        manner = str(rng.choice(["leaf", "leaf", "leaf", "double", "sliding", "garage"]))
        widths = {"leaf": (0.85, 1.05), "double": (1.4, 2.0), "sliding": (1.5, 2.6)}
        width = min(rng.uniform(*widths.get(manner, (2.2, 3.0))), wall.length - self.inner - 0.2)
        if width < _LEAST_DOOR:
            return None
        gap = self._gap(wall, OpeningKind.DOOR, self._spot(wall, width), width, manner)
        return evolve(
            gap, opens_inward=bool(rng.random() < 0.8), hinge_at_start=bool(rng.random() < 0.5)
        )

    def _windows(self, wall: Run) -> list[Gap]:
        rng = self.rng
        free = wall.length - self.inner - 0.3
        if free < 0.5 or rng.random() > self.glazing:
            return []
        width = min(free, self.window * rng.uniform(0.6, 1.3))
        count = min(6, max(1, int(free / (width + 0.3) * rng.uniform(0.4, 1.0))))
        if rng.random() < 0.08:
            width, count = free, 1  # glazed from end to end
        pitch = (wall.length - self.inner) / count
        start = self.inner / 2 + (pitch - width) / 2
        return [
            self._gap(wall, OpeningKind.WINDOW, start + at * pitch, width, "")
            for at in range(count)
        ]

    def _gap(self, wall: Run, kind: OpeningKind, along: Metres, width: Metres, manner: str) -> Gap:
        step = (
            (wall.end[0] - wall.start[0]) / wall.length,
            (wall.end[1] - wall.start[1]) / wall.length,
        )

        def at(distance: Metres) -> Point:
            return wall.start[0] + step[0] * distance, wall.start[1] + step[1] * distance

        outward = wall.beyond == OUTSIDE
        return Gap(
            kind=kind,
            manner=manner,
            start=at(along),
            end=at(along + width),
            inward=wall.inward,
            room=str(wall.room),
            other=None if outward else str(wall.beyond),
            front=self.inner / 2,
            back=self.outer - self.inner / 2 if outward else self.inner / 2,
            height=1.2 if kind is OpeningKind.WINDOW else 2.04,
            sill=0.9 if kind is OpeningKind.WINDOW else 0.0,
        )
