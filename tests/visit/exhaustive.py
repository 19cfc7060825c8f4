"""The shortest timetable of a small visit, found by trying all of them.

It shares no code with the estimator: tasks are started one after the other in every order and by
every person that the rules allow, and what cannot beat the best found so far is given up.

The rules: person 0 alone sprays. A mix is made before the first spraying. A room is prepared,
sprayed after every room that is left through it, kept wet, then finished. Nobody is in a room while
one on its way out is wet.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

A_MOMENT = 1e-6


class Place(NamedTuple):
    """A room: how long its steps take, and the rooms between it and the way out."""

    prepare: float
    spray: float
    contact: float
    finish: float
    path: tuple[str, ...]


def shortest(rooms: Mapping[str, Place], mix: float, crew: int, to_beat: float) -> float:
    """Return the least time all the work takes, or ``to_beat`` when nothing is shorter."""
    names = list(rooms)
    best = [to_beat]

    def search(
        last: float,
        free: Sequence[float],
        mixed: float | None,
        prepared: Mapping[str, float],
        sprayed: Mapping[str, float],
        finished: Mapping[str, float],
        busy_beyond: Mapping[str, float],
        wet: Mapping[str, float],
    ) -> None:
        done = max(free)
        if len(finished) == len(names):
            best[0] = min(best[0], done)
            return
        work = 0.0 if mixed is not None else mix
        ends = [done]
        spray_left = 0.0
        tails = []
        for name in names:
            room = rooms[name]
            if name in finished:
                continue
            work += room.finish + (0.0 if name in prepared else room.prepare)
            if name in sprayed:
                ends.append(max(sprayed[name] + room.contact, last) + room.finish)
            else:
                work += room.spray
                spray_left += room.spray
                tails.append(room.contact + room.finish)
        if tails:
            ends.append(max(free[0], last) + spray_left + min(tails))
        ends.append((sum(max(time, last) for time in free) + work) / crew)
        if max(ends) >= best[0] - A_MOMENT:
            return

        def dry(name: str) -> float:
            return max((wet[other] for other in rooms[name].path if other in wet), default=0.0)

        def beyond(name: str, end: float) -> dict[str, float]:
            later = {other: max(end, busy_beyond.get(other, 0.0)) for other in rooms[name].path}
            return {**busy_beyond, **later}

        for person in range(crew):
            if person > 1 and free[person] in free[1:person]:
                continue  # like a person tried before
            ready = max(last, free[person])
            if mixed is None:
                after = [*free[:person], ready + mix, *free[person + 1 :]]
                search(ready, after, ready + mix, prepared, sprayed, finished, busy_beyond, wet)
            for name, room in rooms.items():
                if name not in prepared:
                    start = max(ready, dry(name))
                    end = start + room.prepare
                    after = [*free[:person], end, *free[person + 1 :]]
                    search(
                        start,
                        after,
                        mixed,
                        {**prepared, name: end},
                        sprayed,
                        finished,
                        beyond(name, end),
                        wet,
                    )
                elif name in sprayed and name not in finished:
                    start = max(ready, sprayed[name] + room.contact, dry(name))
                    end = start + room.finish
                    after = [*free[:person], end, *free[person + 1 :]]
                    search(
                        start,
                        after,
                        mixed,
                        prepared,
                        sprayed,
                        {**finished, name: end},
                        beyond(name, end),
                        wet,
                    )
                elif person == 0 and name not in sprayed and mixed is not None:
                    if any(name in rooms[other].path and other not in sprayed for other in rooms):
                        continue
                    start = max(ready, mixed, prepared[name], busy_beyond.get(name, 0.0), dry(name))
                    end = start + room.spray
                    search(
                        start,
                        [end, *free[1:]],
                        mixed,
                        prepared,
                        {**sprayed, name: end},
                        finished,
                        beyond(name, end),
                        {**wet, name: end + room.contact},
                    )

    search(0.0, [0.0] * crew, None, {}, {}, {}, {}, {})
    return best[0]
