"""What a DXF holds, sorted: strokes and areas by layer, lettering, doors, windows and furniture."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping

import shapely
from attrs import Factory, define, frozen
from ezdxf.document import Drawing
from ezdxf.entities.attrib import Attrib
from ezdxf.entities.dxfentity import DXFEntity
from ezdxf.entities.dxfgfx import DXFGraphic
from ezdxf.entities.insert import Insert
from ezdxf.entities.mtext import MText
from ezdxf.entities.text import Text
from shapely import affinity
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from estimator.errors import SourceError
from estimator.intake.drawings.assembly import Lettering
from estimator.intake.drawings.dxf_shapes import Stroke, areas, strokes
from estimator.intake.drawings.layer_words import opening_kind, words_of
from estimator.intake.room_names import use_of
from estimator.plan.opening import OpeningKind, Point

MOST_ENTITIES = 300_000
"""Entities that are read at most, those in blocks counted each time they are inserted."""

_DEEPEST = 8  # blocks within blocks
_PAPER = "Defpoints"  # a layer that is never drawn


@frozen(kw_only=True, eq=False)
class Piece:
    """A block that is a door, a window or furniture, with the rectangle around it.

    Parameters
    ----------
    curves
        Arcs in it, some of them the swings of doors.
    """

    kind: OpeningKind | str
    at: Point
    extent: Polygon
    curves: tuple[Stroke, ...] = ()


@define(kw_only=True, eq=False)
class Contents:
    """What was found so far; ``strange`` counts parts of kinds that no standard describes."""

    strokes: dict[str, list[Stroke]] = Factory(lambda: defaultdict(list))
    areas: dict[str, list[Polygon]] = Factory(lambda: defaultdict(list))
    letterings: list[Lettering] = Factory(list)
    pieces: list[Piece] = Factory(list)
    count: int = 0
    strange: int = 0


def contents_of(
    space: Iterable[DXFEntity], hidden: Collection[str], name: str, furniture: Mapping[str, str]
) -> Contents:
    """Return what is drawn in a space on layers that are not hidden, their names in lower case.

    Raises
    ------
    SourceError
        When there is too much of it.
    """
    found = Contents()
    _gather(found, space, "0", 0, hidden, name, furniture)
    return found


def hidden_layers(document: Drawing) -> set[str]:
    """Return the names of layers that are not shown, in lower case."""
    return {
        layer.dxf.name.casefold()
        for layer in document.layers
        if layer.is_off() or layer.is_frozen() or layer.dxf.name == _PAPER
    }


def _gather(
    found: Contents,
    entities: Iterable[DXFEntity],
    layer: str,
    depth: int,
    hidden: Collection[str],
    name: str,
    furniture: Mapping[str, str],
) -> None:
    for entity in entities:
        if not isinstance(entity, DXFGraphic):
            found.strange += 1
            continue
        own = entity.dxf.get("layer", "0")
        own = layer if own == "0" else own  # in a block, layer 0 is that of the insert
        if own.casefold() in hidden or entity.dxf.get("invisible", 0):
            continue
        found.count += 1
        if found.count > MOST_ENTITIES:
            raise SourceError(
                name, f"it holds more than {MOST_ENTITIES:,} parts", "send the floor plan alone"
            )
        if isinstance(entity, Insert):
            for insert in entity.multi_insert() if entity.mcount > 1 else (entity,):
                if _is_shown(insert) and not _take_piece(found, insert, own, furniture):
                    found.letterings += [text for one in insert.attribs for text in _text(one)]
                    if depth < _DEEPEST:
                        parts = insert.virtual_entities()
                        _gather(found, parts, own, depth + 1, hidden, name, furniture)
        elif isinstance(entity, Text | MText):
            found.letterings += _text(entity)
        else:
            found.strokes[own] += strokes(entity)
            found.areas[own] += areas(entity)


def _is_shown(insert: Insert) -> bool:
    """Tell whether a block is there and was given a size."""
    return insert.block() is not None and bool(insert.dxf.xscale and insert.dxf.yscale)


def _take_piece(found: Contents, insert: Insert, layer: str, furniture: Mapping[str, str]) -> bool:
    """Keep a block as a piece when its name, or else its layer, says what it is."""
    block = insert.dxf.name
    kind: OpeningKind | str | None = (
        opening_kind(block) or use_of(" ".join(words_of(block)), furniture) or opening_kind(layer)
    )
    if kind is None:
        return False
    inside = Contents()
    _gather(inside, insert.virtual_entities(), layer, _DEEPEST - 1, set(), block, {})
    drawn = [stroke for many in inside.strokes.values() for stroke in many]
    shapes: list[BaseGeometry] = [stroke.line for stroke in drawn]
    shapes += [area for many in inside.areas.values() for area in many]
    place = insert.ocs().to_wcs(insert.dxf.insert)
    at = (place.x, -place.y)
    if not shapes:
        return False
    turn = -insert.dxf.rotation
    upright = affinity.rotate(shapely.GeometryCollection(shapes), -turn, origin=at)
    around = shapely.box(*upright.bounds)
    if not around.area > 0:
        return False
    found.pieces.append(
        Piece(
            kind=kind,
            at=at,
            extent=affinity.rotate(around, turn, origin=at),
            curves=tuple(stroke for stroke in drawn if stroke.curved),
        )
    )
    return True


def _text(entity: DXFEntity) -> list[Lettering]:
    if isinstance(entity, Attrib) and entity.is_invisible:
        return []
    if isinstance(entity, MText):
        place, height = entity.dxf.insert, entity.dxf.char_height
        text = str(entity.plain_text())
    elif isinstance(entity, Text):
        place, height = entity.ocs().to_wcs(entity.get_placement()[1]), entity.dxf.height
        text = str(entity.plain_text())
    else:
        return []
    if not text.strip():
        return []
    return [Lettering(text=text, at=(place.x, -place.y), height=height)]
