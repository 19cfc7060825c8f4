"""Who does what when: a list schedule of the rooms' work over the crew.

The first persons of the crew spray, each with a sprayer; the others mix ahead, prepare rooms ahead
of the sprayers and finish rooms (wipe, unmask) behind. Whoever sprays lends a hand when spraying
has to wait long enough, and sprays other rooms between two passes over one. Whoever is free first
takes the most urgent job that can start at once. Nobody walks through a wet room: a job starts only
when the way to its room is dry, and a room on someone's way out is sprayed only when they are out.
"""

import heapq
import math
from collections import defaultdict
from enum import StrEnum

from estimator.measures import CubicMetres, KilogramsPerCubicMetre, Seconds
from estimator.visit.chores import Job
from estimator.visit.liquid import Liquid
from estimator.visit.spraying import Bout, Pass
from estimator.visit.timetable import Step

_ROUNDING = 1e-9

Line = tuple[Seconds, Seconds, Step, str | None, int, CubicMetres, KilogramsPerCubicMetre]
"""A task before it is written down: start, end, step, room, person from 1, liquid, strength."""


class Manner(StrEnum):
    """When a room is finished, as against spraying the rooms on its way out."""

    SOON = "as soon as somebody is free"
    FIRST = "before"
    LATE = "after"


class ListSchedule:
    """The schedule while it is made.

    When it is made, ``lines`` holds all that is done; and by room ``sprayed`` and ``dry`` say since
    when, and ``finishing`` when wiping and unmasking began and ended.

    Parameters
    ----------
    manner
        When rooms are finished that others on their way out wait for.
    """

    def __init__(self, job: Job, crew: int, manner: Manner) -> None:
        self.lines: list[Line] = []
        self.sprayed: dict[str, Seconds] = {}
        self.dry: dict[str, Seconds] = {}
        self.finishing: dict[str, tuple[Seconds, Seconds]] = {}
        self.done: Seconds = job.begin
        self._job = job
        self._free = [job.begin] * crew
        self._left_off = [job.begin] * crew
        self._rested = [0.0] * crew
        self._to_come: list[list[tuple[Seconds, Seconds]]] = [[] for _ in job.bouts]
        self._rooms = list(job.chores)
        self._next = [0] * len(job.bouts)
        self._prepared: dict[str, Seconds] = {}
        self._contact_over: dict[str, Seconds] = {}
        self._wet_until: dict[str, Seconds] = {}
        self._passed_until: dict[str, Seconds] = {}
        self._to_finish: list[tuple[Seconds, Seconds, str]] = []
        self._shut_in: list[str] = []
        self._unsprayed: dict[str, int] = defaultdict(int)
        for item in job.work:
            self._unsprayed[item.room] += 1
        self._liquid = Liquid(job.fills, job.bouts)
        self._late = manner is Manner.LATE
        self._find_what_lies_beyond(clear_first=manner is Manner.FIRST)

    def _find_what_lies_beyond(self, *, clear_first: bool) -> None:
        """Count for each work how much earlier work lies beyond its room, and is to be done first.

        ``_behind`` lists by room the work that waits until it is sprayed, and ``_held`` the work
        that waits until it is finished.
        """
        numbers: dict[str, list[int]] = defaultdict(list)
        for number, item in enumerate(self._job.work):
            numbers[item.room].append(number)
        self._waits = [0] * len(self._job.work)
        self._behind: list[list[int]] = [[] for _ in self._job.work]
        self._held: dict[str, list[int]] = defaultdict(list)
        for room, own in numbers.items():
            for other in self._job.chores[room].path:
                for number in numbers.get(other, ()):
                    if clear_first and number > own[-1]:
                        self._held[room].append(number)
                        self._waits[number] += 1
                        continue
                    for mine in own:
                        if mine < number:
                            self._behind[mine].append(number)
                            self._waits[number] += 1

    def make(self) -> None:
        """Make all tasks."""
        while len(self.finishing) < len(self._rooms):
            now = min(self._free)
            person = self._free.index(now)
            until = self._next_pass(person, now)
            if until <= now:
                continue
            spraying = person < len(self._next) and self._next[person] < len(
                self._job.bouts[person]
            )
            busy = self._spray(person, now, until) if spraying else self._assist(person, now, until)
            if busy:  # whoever knew of nothing to wait for looks again
                self._free = [now if free == math.inf else free for free in self._free]
            else:
                self._free[person] = min(until, self._next_event(now))
        self.done = max((line[1] for line in self.lines if line[4]), default=self._job.begin)
        for person, left_off in enumerate(self._left_off):
            idle = self.done - left_off >= self._job.break_length
            if not idle and self._rests(person, left_off, self.done - left_off):
                self.done = max(self.done, self._left_off[person])

    def _next_pass(self, person: int, now: Seconds) -> Seconds:
        """Return when a person goes over a room again, doing so when it is time."""
        to_come = self._to_come[person] if person < len(self._to_come) else []
        if not to_come:
            return math.inf
        start, end = to_come[0]
        if start <= now + _ROUNDING:
            to_come.pop(0)
            self._free[person] = self._left_off[person] = end
            return now
        return start

    def _next_event(self, now: Seconds) -> Seconds:
        """Return when something changes for a person who has nothing to do, infinite if unknown."""
        events = [time for time in self._free if time > now]
        if self._to_finish:
            events.append(self._to_finish[0][0])
        for person, at in enumerate(self._next):
            if at < len(self._job.bouts[person]):
                events.append(self._ready(self._job.bouts[person][at]))
        if len(self._prepared) < len(self._rooms):
            events.append(self._way_dry(self._rooms[len(self._prepared)]))
        return min((time for time in events if time > now), default=math.inf)

    def _spray(self, person: int, now: Seconds, until: Seconds) -> bool:
        """Let a person do the next bout, or what it waits for, or lend a hand."""
        bout = self._job.bouts[person][self._next[person]]
        ready = self._ready(bout)
        if until < math.inf:
            if ready <= now and self._fits_between(person, bout, now):
                return self._do_bout(person, bout, now)
            ready = until
        elif ready <= now:
            return self._rests(person, now, bout.duration) or self._do_bout(person, bout, now)
        if bout.step is Step.REFILL and self._mix(person, now, ready):
            return True
        return (
            self._prepare(person, now, ready)
            or self._finish(person, now, ready)
            or self._mix(person, now, ready)
        )

    def _fits_between(self, person: int, bout: Bout, now: Seconds) -> bool:
        """Whether the tank in hand and the time are enough to spray between passes to come."""
        return (
            bout.step is Step.SPRAY
            and not self._is_due(person, now, bout.duration)
            and all(
                now + each.after + each.duration <= start + _ROUNDING
                or now + each.after >= end - _ROUNDING
                for each in bout.passes
                for start, end in self._to_come[person]
            )
        )

    def _assist(self, person: int, now: Seconds, until: Seconds) -> bool:
        """Let a person mix ahead, prepare a room ahead or finish one behind."""
        return (
            self._mix(person, now, until)
            or self._prepare(person, now, until)
            or self._finish(person, now, until)
        )

    def _rests(self, person: int, now: Seconds, duration: Seconds) -> bool:
        """Let a person have a break if one is due before so long a job is over.

        Waiting as long as a break is one.
        """
        if not self._is_due(person, now, duration):
            return False
        self._rested[person] = self._do(Step.BREAK, None, person, now, self._job.break_length)
        return True

    def _is_due(self, person: int, now: Seconds, duration: Seconds) -> bool:
        """Whether a break is due before so long a job is over."""
        if now - self._left_off[person] >= self._job.break_length:
            self._rested[person] = now
        rested = self._rested[person]
        return now + duration - rested > self._job.break_after and now != rested

    def _ready(self, bout: Bout) -> Seconds:
        """Return when a bout can start, infinite while nobody knows."""
        if bout.step is Step.REFILL:
            return self._liquid.ready_for(bout)
        if bout.step is Step.BATTERY:
            return 0.0
        return max(self._enterable(each) for each in bout.passes)

    def _enterable(self, each: Pass) -> Seconds:
        """Return when a pass over a room can start as far as the room and its way are concerned."""
        room = self._job.work[each.work].room
        way = self._way_dry(room)
        if not each.first:
            return way
        if self._waits[each.work]:
            return math.inf
        before = self._job.work[each.work - 1] if each.work else None
        goes_on = before and (before.room, before.strength) == (
            room,
            self._job.work[each.work].strength,
        )
        return max(
            way,
            self._prepared.get(room, math.inf),
            self._passed_until.get(room, 0.0),
            0.0 if goes_on else self._wet_until.get(room, 0.0),
        )

    def _way_dry(self, room: str) -> Seconds:
        """Return when nothing on the way to a room is wet."""
        wet = self._wet_until
        return max((wet[other] for other in self._job.chores[room].path if other in wet), default=0)

    def _do_bout(self, person: int, bout: Bout, now: Seconds) -> bool:
        """Let a person do their next bout."""
        self._next[person] += 1
        if bout.step is not Step.SPRAY:
            if bout.step is Step.REFILL:
                self._liquid.draw(person, bout)
            room = self._job.work[bout.work].room
            self._do(bout.step, room, person, now, bout.duration, bout.volume, bout.strength)
            return True
        first, *others = bout.passes
        self._free[person] = self._left_off[person] = now + first.after + first.duration
        times = [(now + each.after, now + each.after + each.duration) for each in others]
        self._to_come[person] = sorted([*self._to_come[person], *times])
        seen: dict[int, Seconds] = {}
        for each in bout.passes:
            room = self._job.work[each.work].room
            start = now + each.after
            end = start + each.duration
            if each.work in seen:
                self._add(seen[each.work], start, Step.CONTACT, room)
            seen[each.work] = end
            self._add(start, end, Step.SPRAY, room, person + 1, each.volume, bout.strength)
            self._wet_until[room] = math.inf
            self._pass_through(room, end)
            if each.last:
                self._let_stand(each.work, end)
        return True

    def _let_stand(self, number: int, end: Seconds) -> None:
        """Let the contact time run in a room that has been sprayed."""
        item = self._job.work[number]
        room = item.room
        over = max(end + item.hold, self._contact_over.get(room, 0.0))
        self._add(end, end + item.hold, Step.CONTACT, room)
        self.sprayed[room] = end
        self.dry[room] = max(over, end + item.dries_after, self.dry.get(room, 0.0))
        self._contact_over[room] = self._wet_until[room] = over
        for waiting in self._behind[number]:
            self._waits[waiting] -= 1
        self._unsprayed[room] -= 1
        if not self._unsprayed[room]:
            self._will_finish(room, over)
        for behind in self._shut_in:
            self._will_finish(behind, over)
        self._shut_in.clear()

    def _will_finish(self, room: str, after: Seconds) -> None:
        """Note from when a room can be finished; of several, the longest work comes first."""
        heapq.heappush(self._to_finish, (after, -self._job.chores[room].finish, room))

    def _mix(self, person: int, now: Seconds, until: Seconds) -> bool:
        """Let a person make up the next mix, if a sprayer will need it next."""
        duration = self._job.mix
        if now + duration > until or (strength := self._liquid.short()) is None:
            return False
        if self._rests(person, now, duration):
            return True
        volume = self._liquid.next_mix(strength)
        end = self._do(Step.MIX, None, person, now, duration, volume, strength)
        self._liquid.add(strength, end)
        return True

    def _prepare(self, person: int, now: Seconds, until: Seconds) -> bool:
        """Let a person prepare the next room, if the way there is dry."""
        if len(self._prepared) == len(self._rooms):
            return False
        room = self._rooms[len(self._prepared)]
        duration = self._job.chores[room].prepare
        if now + duration > until or self._way_dry(room) > now:
            return False
        if not self._rests(person, now, duration):
            self._prepared[room] = self._do(Step.PREPARE, room, person, now, duration)
            self._pass_through(room, self._prepared[room])
        return True

    def _finish(self, person: int, now: Seconds, until: Seconds) -> bool:
        """Let a person wipe and unmask the room that waits longest, if the way there is dry."""
        while self._to_finish and self._to_finish[0][0] <= now:
            room = self._to_finish[0][-1]
            chores = self._job.chores[room]
            if now + chores.finish > until:
                return False
            dry = math.inf if self._late and self._leads_past_work(room) else self._way_dry(room)
            if dry <= now:
                if not self._rests(person, now, chores.finish):
                    heapq.heappop(self._to_finish)
                    self._wipe_and_unmask(room, person, now)
                return True
            heapq.heappop(self._to_finish)
            if dry == math.inf:
                self._shut_in.append(room)
            else:
                self._will_finish(room, dry)
        return False

    def _leads_past_work(self, room: str) -> bool:
        """Whether a room on the way out is still to be sprayed."""
        return any(self._unsprayed.get(other) for other in self._job.chores[room].path)

    def _wipe_and_unmask(self, room: str, person: int, now: Seconds) -> None:
        chores = self._job.chores[room]
        wiped = self._do(Step.WIPE, room, person, now, chores.wipe)
        end = self._do(Step.UNMASK, room, person, wiped, chores.unmask)
        self.finishing[room] = now, end
        self._pass_through(room, end)
        for waiting in self._held[room]:
            self._waits[waiting] -= 1

    def _pass_through(self, room: str, end: Seconds) -> None:
        """Keep the way out of a room unsprayed until whoever works there is out."""
        for other in self._job.chores[room].path:
            self._passed_until[other] = max(end, self._passed_until.get(other, 0.0))

    def _do(
        self,
        step: Step,
        room: str | None,
        person: int,
        start: Seconds,
        duration: Seconds,
        volume: CubicMetres = 0.0,
        strength: KilogramsPerCubicMetre = 0.0,
    ) -> Seconds:
        """Let a person be busy; return until when."""
        end = self._free[person] = self._left_off[person] = start + duration
        self._add(start, end, step, room, person + 1, volume, strength)
        return end

    def _add(
        self,
        start: Seconds,
        end: Seconds,
        step: Step,
        room: str | None,
        person: int = 0,
        volume: CubicMetres = 0.0,
        strength: KilogramsPerCubicMetre = 0.0,
    ) -> None:
        """Write a task down, unless it takes no time and moves no liquid."""
        if end > start or volume:
            self.lines.append((start, end, step, room, person, volume, strength))
