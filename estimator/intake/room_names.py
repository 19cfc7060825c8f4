"""What rooms are called: their use by a word in the name, singular, and numbers for namesakes."""

import re
from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from itertools import chain, count

_WORD = re.compile(r"[^\W\d_]+(?:'[^\W\d_]+)*")
_MOST_WORDS = 12
_LONGEST_PHRASE = 3


def singular(word: str) -> str:
    """Return the singular of a plain English plural.

    >>> [singular(word) for word in ("classrooms", "lobbies", "offices", "class", "benches")]
    ['classroom', 'lobby', 'office', 'class', 'bench']
    """
    lower = word.lower()
    if lower.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if lower.endswith(("ches", "shes", "sses", "xes")):
        return word[:-2]
    if lower.endswith("s") and not lower.endswith(("ss", "us")):
        return word[:-1]
    return word


def use_of(name: str, uses: Mapping[str, str]) -> str | None:
    """Return the use whose word stands in the name: the longest phrase, then the last word.

    Parameters
    ----------
    uses
        Use by word, the words in lower case.

    Examples
    --------
    >>> use_of("Mrs Hall's study", {"hall": "corridor", "study": "office"})
    'office'
    """
    words = _WORD.findall(name.lower())[-_MOST_WORDS:]
    words = ["" if "'" in word else word for word in words]
    for length in range(min(_LONGEST_PHRASE, len(words)), 0, -1):
        for start in range(len(words) - length, -1, -1):
            *first, last = words[start : start + length]
            for phrase in (" ".join([*first, last]), " ".join([*first, singular(last)])):
                if phrase in uses:
                    return uses[phrase]
    return None


def numbered(names: Iterable[str]) -> tuple[str, ...]:
    """Return the names, those given more than once with a number behind, none of them twice.

    >>> numbered(["Hall", "Classroom", "Classroom", "Classroom 1"])
    ('Hall', 'Classroom 2', 'Classroom 3', 'Classroom 1')
    """
    wanted = tuple(names)
    times = Counter(name.casefold() for name in wanted)
    taken = {name for name, count in times.items() if count == 1}
    last = Counter[str]()
    found = []
    for name in wanted:
        key = name.casefold()
        if times[key] > 1:
            last[key] += 1
            while f"{key} {last[key]}" in taken:
                last[key] += 1
            name = f"{name} {last[key]}"
        found.append(name)
    return tuple(found)


def same_name(one: str, other: str) -> bool:
    """Return whether two names are the same but for case, a plural or the word "room".

    >>> same_name("dining", "Dining room"), same_name("Bath", "Bathroom")
    (True, False)
    """
    return _core(one) == _core(other)


def called(name: str, rooms: Sequence[tuple[str, str]], uses: Mapping[str, str]) -> int | None:
    """Return the place of the first room that a name means; None when none is meant.

    Parameters
    ----------
    rooms
        Name and use of each.
    uses
        Use by word.

    Examples
    --------
    >>> rooms = [("Guest bedroom", "bedroom"), ("Hall", "hall"), ("Living room", "living_room")]
    >>> called("the Lounge", rooms, {"lounge": "living_room"}), called("guest", rooms, {})
    (2, 0)
    """
    use = use_of(name, uses)
    words = set(_WORD.findall(name.lower()))
    ways = (
        lambda room: same_name(name, room[0]),
        lambda room: use is not None and room[1] == use,
        lambda room: bool(words & set(_WORD.findall(room[0].lower()))),
    )
    for is_meant in ways:
        for at, room in enumerate(rooms):
            if is_meant(room):
                return at
    return None


def free_name(name: str, taken: Collection[str]) -> str:
    """Return the name, with a number behind where another room has it.

    >>> free_name("Bedroom", ["Bedroom", "Bedroom 2"])
    'Bedroom 3'
    """
    known = {other.casefold() for other in taken}
    tries = chain([name], (f"{name} {number}" for number in count(2)))
    return next(one for one in tries if one.casefold() not in known)


def _core(name: str) -> str:
    words = [word for word in name.casefold().split() if word not in ("the", "room", "rooms")]
    return " ".join([*words[:-1], singular(words[-1])]) if words else name.casefold()
