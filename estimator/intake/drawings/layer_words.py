"""What layers and blocks of drawings are called, in a few languages; common practice."""

import re

from estimator.plan.opening import OpeningKind

_ROOMS = {
    "room", "rooms", "area", "areas", "space", "spaces", "zone", "zones", "rm",
    "raum", "räume", "raeume", "zimmer", "fläche", "flächen", "nutzfläche",
    "pièce", "pièces", "piece", "pieces", "surface", "surfaces", "local", "locaux",
    "habitación", "habitaciones", "habitacion", "recinto", "recintos", "estancia", "estancias",
}  # fmt: skip
_WALLS = {
    "wall", "walls", "partition", "partitions", "wand", "wände", "waende", "mauer", "mauern",
    "mur", "murs", "cloison", "cloisons", "muro", "muros", "pared", "paredes", "tabique",
    "tabiques", "parete", "pareti", "vegg", "vegger", "væg", "vägg", "muur", "muren",
}  # fmt: skip
_NO_WALLS = {"text", "dim", "dims", "dimension", "dimensions", "anno", "tag", "tags", "symbol"}
_DOORS = {
    "door", "doors", "dr", "tür", "türen", "tuer", "tueren", "porte", "portes",
    "puerta", "puertas", "porta", "gate",
}  # fmt: skip
_WINDOWS = {
    "window", "windows", "win", "wdw", "fenster", "fenêtre", "fenêtres", "fenetre", "fenetres",
    "ventana", "ventanas", "glazing", "finestra",
}  # fmt: skip

_CAMEL = re.compile(r"(?<=[a-zà-ÿ])(?=[A-Z])")
_WORD = re.compile(r"[^\W\d_]+")
# Words that end longer ones, as in "Innenwand".
_ENDINGS = {
    "raum", "räume", "zimmer", "fläche", "flächen", "wand", "wände", "waende", "mauer", "mauern",
    "tür", "türen", "fenster", "vegg", "vägg", "muur", "muren",
}  # fmt: skip


def words_of(name: str) -> list[str]:
    """Return the words in the name of a layer or block.

    >>> words_of("A-WALL_Full2 InnerDoor")
    ['a', 'wall', 'full', 'inner', 'door']
    """
    return [word.lower() for word in _WORD.findall(_CAMEL.sub(" ", name))]


def is_room_layer(name: str) -> bool:
    """Tell whether a layer holds outlines of rooms by its name."""
    return _speaks_of(name, _ROOMS) and not _speaks_of(name, _WALLS | _NO_WALLS)


def is_wall_layer(name: str) -> bool:
    """Tell whether a layer holds walls by its name."""
    return _speaks_of(name, _WALLS) and not _speaks_of(name, _NO_WALLS)


def opening_kind(name: str) -> OpeningKind | None:
    """Return whether a block or layer is a door or a window by its name."""
    if _speaks_of(name, _DOORS):
        return OpeningKind.DOOR
    return OpeningKind.WINDOW if _speaks_of(name, _WINDOWS) else None


def _speaks_of(name: str, words: set[str]) -> bool:
    return any(
        said in words or any(said.endswith(word) for word in words & _ENDINGS)
        for said in words_of(name)
    )
