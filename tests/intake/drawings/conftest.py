import io

import ezdxf
import pytest
from shapely.geometry import box


class House:
    """Two rooms, a door 0.9 m wide between them and a window 1.5 m wide to the street.

    Outer walls are 0.3 m thick, the partition 0.1 m; inside, the rooms measure 4.7 m x 6 m and
    5.2 m x 6 m.
    """

    outside = box(0, 0, 10.6, 6.6)
    rooms = box(0.3, 0.3, 5.0, 6.3), box(5.1, 0.3, 10.3, 6.3)
    door, window = box(5.0, 2.0, 5.1, 2.9), box(7.0, 0.0, 8.5, 0.3)
    walls = outside - rooms[0] - rooms[1] - door - window
    areas = (28.2, 31.2)


class Sheet:
    """A DXF in the making, its sizes given in metres."""

    def __init__(self, units=6, metre=1.0):
        self.document = ezdxf.new()
        self.document.header["$INSUNITS"] = units
        self.space = self.document.modelspace()
        self.metre = metre

    def points(self, points):
        return [tuple(part * self.metre for part in point[:2]) for point in points]

    def outline(self, points, layer, bulges=None):
        points = self.points(points)
        if bulges:
            points = [(x, y, bulge) for (x, y), bulge in zip(points, bulges, strict=True)]
        options = {"format": "xyb"} if bulges else {}
        self.space.add_lwpolyline(points, close=True, dxfattribs={"layer": layer}, **options)

    def rings(self, shape, layer):
        for part in getattr(shape, "geoms", [shape]):
            for ring in (part.exterior, *part.interiors):
                self.outline(list(ring.coords)[:-1], layer)

    def line(self, start, end, layer="0"):
        self.space.add_line(*self.points([start, end]), dxfattribs={"layer": layer})

    def text(self, text, at):
        self.space.add_text(text, height=0.2 * self.metre).set_placement(self.points([at])[0])

    def data(self):
        stream = io.StringIO()
        self.document.write(stream)
        return stream.getvalue().encode()


@pytest.fixture
def sheet():
    return Sheet


@pytest.fixture
def house():
    return House
