"""What a scope covers, in words."""

from collections.abc import Sequence

from estimator.surfaces.scope import PARTS, Scope


def covered(scope: Scope) -> str:
    """Return all that a scope covers.

    >>> covered(Scope(walls_to=2.0, doors=False, reveals=False))
    'Floors, walls to 2 m, furniture and touch points'
    """
    return _sentence(_listed([*_parts(scope).values()]) or "nothing")


def covered_beside(scope: Scope, first: Scope) -> str:
    """Return what a scope covers by how it differs from another.

    >>> covered_beside(Scope(ceilings=True, glass=True), Scope())
    'With ceilings and glass'
    >>> covered_beside(Scope(walls_to=2.0, doors=False), Scope())
    'With walls to 2 m, without doors'
    """
    own, other = _parts(scope), _parts(first)
    more = [words for part, words in own.items() if other.get(part) != words]
    less = [words for part, words in other.items() if part not in own]
    said = [f"{how} {_listed(what)}" for how, what in (("with", more), ("without", less)) if what]
    return _sentence(", ".join(said) or "the same")


def _parts(scope: Scope) -> dict[str, str]:
    words = {part: words for part, words in PARTS.items() if getattr(scope, part)}
    if scope.walls and scope.walls_to is not None:
        words["walls"] = f"walls to {scope.walls_to:.3g} m"
    return words


def _listed(words: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(words[:-1]), *words[-1:])))


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:]
