"""Who does what when: a list schedule of the rooms' work over the crew.

Person 1 sprays; there is one sprayer. The others mix one tank ahead, prepare rooms ahead of the
sprayer and finish rooms (wipe, unmask) behind; person 1 lends a hand whenever spraying has to wait
long enough. Whoever is free first takes the most urgent job that can start at once. Nobody walks
through a wet room: a job starts only when the way to its room is dry, and a room on someone's way
out is sprayed only when they are out.
"""

import heapq
import math
from collections import Counter
from collections.abc import Mapping, Sequence

from attrs import frozen

from estimator.measures import Seconds
from estimator.visit.spraying import Operation
from estimator.visit.timetable import Step, Task
from estimator.visit.work import RoomWork


@frozen(kw_only=True)
class Chores:
    """What the crew does in a room besides spraying, and the rooms between it and the way out."""

    prepare: Seconds
    wipe: Seconds
    unmask: Seconds
    path: tuple[str, ...]


class ListSchedule:
    """The schedule while it is made.

    When it is made, ``tasks`` holds all that is done; and by room ``sprayed`` and ``dry`` say since
    when, and ``finishing`` when wiping and unmasking began and ended.

    Parameters
    ----------
    work
        The work in the order it is sprayed.
    operations
        The sprayer's own work.
    chores
        What else is done in each room.
    begin
        When everybody is ready to work.
    mix
        Time to make up one tank.
    """

    def __init__(
        self,
        work: Sequence[RoomWork],
        operations: Sequence[Operation],
        chores: Mapping[str, Chores],
        *,
        crew: int,
        begin: Seconds,
        mix: Seconds,
    ) -> None:
        self.tasks: list[Task] = []
        self.sprayed: dict[str, Seconds] = {}
        self.dry: dict[str, Seconds] = {}
        self.finishing: dict[str, tuple[Seconds, Seconds]] = {}
        self._work = work
        self._operations = operations
        self._chores = chores
        self._mix_time = mix
        self._free = [begin] * crew
        self._rooms = list(dict.fromkeys(item.room for item in work))
        self._unsprayed = Counter(item.room for item in work)
        self._fills = sum(operation.step is Step.REFILL for operation in operations)
        self._done = 0
        self._loaded = 0
        self._mixed: list[Seconds] = []
        self._prepared: dict[str, Seconds] = {}
        self._contact_over: dict[str, Seconds] = {}
        self._wet_until: dict[str, Seconds] = {}
        self._passed_until: dict[str, Seconds] = {}
        self._next_pass: Seconds = 0.0
        self._to_finish: list[tuple[Seconds, str]] = []
        self._shut_in: list[str] = []

    def make(self) -> Seconds:
        """Make all tasks; return when the last person is done."""
        while self._done < len(self._operations) or len(self.finishing) < len(self._rooms):
            now = min(self._free)
            person = self._free.index(now)
            busy = self._lead(now) if person == 0 else self._assist(person, now)
            if not busy:
                self._free[person] = self._next_event(now)
        return max((task.end for task in self.tasks if task.person), default=self._free[0])

    def _next_event(self, now: Seconds) -> Seconds:
        """Return when something changes for a person who has nothing to do now."""
        events = [*self._free, *(release for release, _ in self._to_finish[:1])]
        if self._done < len(self._operations):
            events.append(self._ready(self._operations[self._done]))
        if len(self._prepared) < len(self._rooms):
            events.append(self._way_dry(self._rooms[len(self._prepared)]))
        return min(time for time in events if time > now)

    def _lead(self, now: Seconds) -> bool:
        """Let person 1 spray, or do what spraying waits for, or lend a hand."""
        if self._done == len(self._operations):
            return self._assist(0, now)
        operation = self._operations[self._done]
        ready = self._ready(operation)
        if ready <= now:
            self._operate(operation, now)
            return True
        if operation.step is Step.REFILL and ready == math.inf:
            return self._mix(0, now)
        if self._work[operation.work].room not in self._prepared:
            return self._prepare(0, now)
        return self._assist(0, now, until=ready)

    def _assist(self, person: int, now: Seconds, until: Seconds = math.inf) -> bool:
        """Let a person mix a tank ahead, prepare a room ahead or finish one behind."""
        if len(self._mixed) < min(self._fills, self._loaded + 1) and now + self._mix_time <= until:
            return self._mix(person, now)
        return self._prepare(person, now, until) or self._finish(person, now, until)

    def _ready(self, operation: Operation) -> Seconds:
        """Return when an operation of the sprayer can start, infinite while nobody knows."""
        if operation.step is Step.REFILL:
            return self._mixed[self._loaded] if self._loaded < len(self._mixed) else math.inf
        if not operation.begins:
            return 0.0
        if operation.turn:
            return self._next_pass
        item = self._work[operation.work]
        room = item.room
        before = self._work[operation.work - 1] if operation.work else None
        goes_on = before and (before.room, before.strength) == (room, item.strength)
        return max(
            self._prepared.get(room, math.inf),
            self._way_dry(room),
            self._passed_until.get(room, 0.0),
            0.0 if goes_on else self._wet_until.get(room, 0.0),
        )

    def _way_dry(self, room: str) -> Seconds:
        """Return when nothing on the way to a room is wet."""
        wet = self._wet_until
        return max((wet[other] for other in self._chores[room].path if other in wet), default=0.0)

    def _operate(self, operation: Operation, now: Seconds) -> None:
        """Let person 1 do the next operation."""
        item = self._work[operation.work]
        self._done += 1
        if operation.step is Step.REFILL:
            self._loaded += 1
        end = self._do(operation.step, item.room, 0, now, operation.duration)
        if operation.step is not Step.SPRAY:
            return
        self._wet_until[item.room] = math.inf
        hold = item.contact_time / item.passes
        if operation.begins:
            self._next_pass = now + hold
        if operation.ends and operation.turn < item.passes - 1:
            self._add(Step.CONTACT, item.room, -1, end, max(end, self._next_pass))
        elif operation.ends:
            self._let_stand(item, end, hold)

    def _let_stand(self, item: RoomWork, end: Seconds, hold: Seconds) -> None:
        """Let the contact time run in a room that has been sprayed."""
        room = item.room
        over = max(end + hold, self._contact_over.get(room, 0.0))
        self._add(Step.CONTACT, room, -1, end, end + hold)
        self.sprayed[room] = end
        self.dry[room] = max(over, end + item.dries_after, self.dry.get(room, 0.0))
        self._contact_over[room] = self._wet_until[room] = over
        self._unsprayed[room] -= 1
        if not self._unsprayed[room]:
            heapq.heappush(self._to_finish, (over, room))
        for behind in self._shut_in:
            heapq.heappush(self._to_finish, (over, behind))
        self._shut_in.clear()

    def _mix(self, person: int, now: Seconds) -> bool:
        """Let a person make up the next tank."""
        self._mixed.append(self._do(Step.MIX, None, person, now, self._mix_time))
        return True

    def _prepare(self, person: int, now: Seconds, until: Seconds = math.inf) -> bool:
        """Let a person prepare the next room, if the way there is dry."""
        if len(self._prepared) == len(self._rooms):
            return False
        room = self._rooms[len(self._prepared)]
        duration = self._chores[room].prepare
        if now + duration > until or self._way_dry(room) > now:
            return False
        self._prepared[room] = self._do(Step.PREPARE, room, person, now, duration)
        self._pass_through(room, self._prepared[room])
        return True

    def _finish(self, person: int, now: Seconds, until: Seconds) -> bool:
        """Let a person wipe and unmask the room that waits longest, if the way there is dry."""
        while self._to_finish and self._to_finish[0][0] <= now:
            room = self._to_finish[0][1]
            chores = self._chores[room]
            if now + chores.wipe + chores.unmask > until:
                return False
            heapq.heappop(self._to_finish)
            dry = self._way_dry(room)
            if dry == math.inf:
                self._shut_in.append(room)
            elif dry > now:
                heapq.heappush(self._to_finish, (dry, room))
            else:
                wiped = self._do(Step.WIPE, room, person, now, chores.wipe)
                end = self._do(Step.UNMASK, room, person, wiped, chores.unmask)
                self.finishing[room] = now, end
                self._pass_through(room, end)
                return True
        return False

    def _pass_through(self, room: str, end: Seconds) -> None:
        """Keep the way out of a room unsprayed until whoever works there is out."""
        for other in self._chores[room].path:
            self._passed_until[other] = max(end, self._passed_until.get(other, 0.0))

    def _do(
        self, step: Step, room: str | None, person: int, start: Seconds, duration: Seconds
    ) -> Seconds:
        """Let a person be busy; return until when."""
        end = self._free[person] = start + duration
        self._add(step, room, person, start, end)
        return end

    def _add(self, step: Step, room: str | None, person: int, start: Seconds, end: Seconds) -> None:
        """Write a task down, unless it takes no time."""
        if end > start:
            self.tasks.append(Task(step=step, room=room, person=person + 1, start=start, end=end))
