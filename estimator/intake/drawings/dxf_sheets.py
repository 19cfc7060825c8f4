"""The storeys of a DXF: by its layers where those are named by storeys, or by its layouts."""

from collections.abc import Iterator, Mapping

from attrs import frozen
from ezdxf.document import Drawing

from estimator.intake.drawings.dxf_contents import Contents, contents_of, hidden_layers
from estimator.intake.drawings.layer_words import is_room_layer, is_wall_layer
from estimator.intake.storey_names import StoreyName, storey_name


@frozen(kw_only=True, eq=False)
class Sheet:
    """What is drawn of one storey, or of several beside each other where it has no name."""

    name: str = ""
    contents: Contents


def sheets_of(document: Drawing, name: str, furniture: Mapping[str, str]) -> list[Sheet]:
    """Return everything drawn in the model space, or in the layouts where that is empty.

    Raises
    ------
    SourceError
        When there is too much of it.
    """
    hidden = hidden_layers(document)
    contents = contents_of(document.modelspace(), hidden, name, furniture)
    if _is_empty(contents):
        layouts = [
            Sheet(
                name=_text(storey_name(layout.name)),
                contents=contents_of(layout, hidden, name, furniture),
            )
            for layout in document.layouts
            if layout.is_any_paperspace
        ]
        return [sheet for sheet in layouts if not _is_empty(sheet.contents)]
    return [Sheet(contents=contents)]


def sheets_by_layers(
    document: Drawing, whole: Contents, name: str, furniture: Mapping[str, str]
) -> Iterator[Sheet]:
    """Yield the storeys that layers of walls or rooms are named by; none for fewer than two.

    What is on other layers belongs to every storey.
    """
    drawn = {layer for many in (whole.strokes, whole.areas) for layer in many if many[layer]}
    named = {layer: found for layer in drawn if (found := storey_name(layer)) is not None}
    built = {layer for layer in drawn if is_wall_layer(layer) or is_room_layer(layer)} or drawn
    levels = {found.level: found for layer, found in named.items() if layer in built}
    for level in sorted(levels) if len(levels) > 1 else ():
        others = {layer.casefold() for layer, found in named.items() if found.level != level}
        hidden = hidden_layers(document) | others
        contents = contents_of(document.modelspace(), hidden, name, furniture)
        yield Sheet(name=levels[level].text, contents=contents)


def _is_empty(contents: Contents) -> bool:
    return not any(contents.strokes.values()) and not any(contents.areas.values())


def _text(found: StoreyName | None) -> str:
    return found.text if found else ""
