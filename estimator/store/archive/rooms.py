"""The rooms of a plan as GeoJSON (RFC 7946), in metres on the plan instead of degrees."""

from typing import Any

from shapely import Polygon
from shapely.geometry import mapping
from shapely.geometry.polygon import orient


def rooms_geojson(plan: dict[str, Any]) -> dict[str, Any]:
    """Return the rooms of a ``plan.json`` as a collection of features."""
    return {
        "type": "FeatureCollection",
        "title": plan.get("title", ""),
        "coordinates_in": "metres on the plan, x to the right and y down",
        "features": [_feature(room) for room in plan["rooms"]],
    }


def _feature(room: dict[str, Any]) -> dict[str, Any]:
    outline = room.get("outline")
    shape = orient(Polygon(outline, room.get("holes") or ())) if outline else None
    return {
        "type": "Feature",
        "id": room["id"],
        "geometry": mapping(shape) if shape else None,
        "properties": {
            "name": room.get("name", ""),
            "use": room.get("use", ""),
            "storey": room.get("storey", 0),
            "floor_area_m2": shape.area if shape else None,
            "ceiling_height_m": room.get("ceiling_height"),
        },
    }
