import math
import sys

import numpy as np
import pytest

from estimator.errors import EstimatorError, NoClosedRoom, SourceError
from estimator.intake.drawings.ifc import ifc_plan
from estimator.plan.opening import OpeningKind
from estimator.plan.room import Basis

USES = {"kitchen": "kitchen", "bedroom": "bedroom"}
ELL = [(0, 0), (7, 0), (7, 3), (4, 3), (4, 6), (0, 6)]  # 33 m² by the shoelace formula


@pytest.fixture
def model():
    pytest.importorskip("ifcopenshell", reason="the extra ifc is not installed")
    return Model


class Model:
    """A model in the making, in millimetres, its sizes given in metres."""

    def __init__(self):
        from ifcopenshell.api import aggregate, context, geometry, project, root, spatial, unit

        self.aggregate, self.geometry, self.root, self.spatial = aggregate, geometry, root, spatial
        self.file = project.create_file(version="IFC4")
        self.project = root.create_entity(self.file, ifc_class="IfcProject", name="Larkfield")
        unit.assign_unit(self.file, length={"is_metric": True, "raw": "MILLIMETERS"})
        model = context.add_context(self.file, context_type="Model")
        self.body = context.add_context(
            self.file,
            context_type="Model",
            context_identifier="Body",
            target_view="MODEL_VIEW",
            parent=model,
        )
        self.building = root.create_entity(self.file, ifc_class="IfcBuilding", name="Orchard House")
        aggregate.assign_object(self.file, products=[self.building], relating_object=self.project)

    def storey(self, name, elevation):
        storey = self.root.create_entity(self.file, ifc_class="IfcBuildingStorey", name=name)
        storey.Elevation = elevation * 1000.0
        self.aggregate.assign_object(self.file, products=[storey], relating_object=self.building)
        return storey

    def place(self, product, at, turn=0.0):
        matrix = np.eye(4)
        cos, sin = math.cos(turn), math.sin(turn)
        matrix[:2, :2] = [[cos, -sin], [sin, cos]]
        matrix[:3, 3] = at
        self.geometry.edit_object_placement(self.file, product=product, matrix=matrix, is_si=True)

    def space(self, storey, name, profile, height, at=(0, 0, 0)):
        space = self.root.create_entity(self.file, ifc_class="IfcSpace", name="001")
        space.LongName = name
        self.place(space, at)
        if profile is not None:
            solid = self.file.createIfcExtrudedAreaSolid(
                profile,
                self.file.createIfcAxis2Placement3D(
                    self.file.createIfcCartesianPoint((0.0, 0.0, 0.0))
                ),
                self.file.createIfcDirection((0.0, 0.0, 1.0)),
                height * 1000.0,
            )
            shape = self.file.createIfcShapeRepresentation(self.body, "Body", "SweptSolid", [solid])
            self.geometry.assign_representation(self.file, product=space, representation=shape)
        if storey is not None:
            self.aggregate.assign_object(self.file, products=[space], relating_object=storey)
        return space

    def polygon(self, points):
        corners = [
            self.file.createIfcCartesianPoint((x * 1000.0, y * 1000.0))
            for x, y in [*points, points[0]]
        ]
        line = self.file.createIfcPolyline(corners)
        return self.file.createIfcArbitraryClosedProfileDef("AREA", None, line)

    def circle(self, radius):
        return self.file.createIfcCircleProfileDef("AREA", None, None, radius * 1000.0)

    def fitting(self, kind, storey, at, width, height, turn=0.0):
        thing = self.root.create_entity(self.file, ifc_class=kind, name="1")
        thing.OverallWidth, thing.OverallHeight = width * 1000.0, height * 1000.0
        self.place(thing, at, turn)
        self.spatial.assign_container(self.file, products=[thing], relating_structure=storey)

    def plan(self):
        return ifc_plan(self.file.to_string().encode(), "house.ifc", USES)


def test_spaces_have_their_names_outlines_heights_and_storeys(model):
    house = model()
    upper, ground = house.storey("Upper floor", 3), house.storey("Ground floor", 0)
    house.space(ground, "Kitchen", house.polygon(ELL), 2.55)
    house.space(upper, "Bedroom", house.polygon([(0, 0), (3, 0), (3, 4), (0, 4)]), 2.4, (0, 0, 3))
    plan = house.plan()
    assert plan.title == "Orchard House"
    assert [storey.name for storey in plan.storeys] == ["Ground floor", "Upper floor"]
    kitchen, bedroom = plan.rooms
    assert (kitchen.name, kitchen.use, kitchen.storey) == ("Kitchen", "kitchen", 0)
    assert (bedroom.name, bedroom.use, bedroom.storey) == ("Bedroom", "bedroom", 1)
    assert kitchen.outline.area == pytest.approx(33, rel=1e-6)
    assert bedroom.outline.area == pytest.approx(12, rel=1e-6)
    assert kitchen.ceiling_height == pytest.approx(2.55)
    assert bedroom.ceiling_height == pytest.approx(2.4)
    assert kitchen.basis is Basis.MEASURED


def test_a_round_space_has_the_area_of_its_circle(model):
    house = model()
    house.space(house.storey("Ground", 0), "Kitchen", house.circle(2.0), 2.5)
    (room,) = house.plan().rooms
    assert room.outline.area == pytest.approx(math.pi * 4, rel=2e-3)


def test_doors_and_windows_stand_in_the_walls_of_their_rooms(model):
    house = model()
    ground = house.storey("Ground", 0)
    house.space(ground, "Kitchen", house.polygon([(0, 0), (4, 0), (4, 3), (0, 3)]), 2.5)
    house.space(ground, "Bedroom", house.polygon([(4.1, 0), (9, 0), (9, 3), (4.1, 3)]), 2.5)
    house.fitting("IfcDoor", ground, (4.05, 1, 0), 0.9, 2.1, turn=math.pi / 2)
    house.fitting("IfcWindow", ground, (1, -0.15, 0.9), 1.5, 1.2)
    kitchen, bedroom = house.plan().rooms
    door, window = sorted(kitchen.openings, key=lambda opening: opening.kind)
    assert (door.kind, window.kind) == (OpeningKind.DOOR, OpeningKind.WINDOW)
    assert door.width == pytest.approx(0.9)
    assert door.height == pytest.approx(2.1)
    assert door.leads_to == bedroom.id
    assert (window.width, window.height, window.sill) == pytest.approx((1.5, 1.2, 0.9))
    assert [opening.leads_to for opening in bedroom.openings] == [kitchen.id]


def test_what_has_no_shape_or_no_place_is_left_out_with_a_doubt(model):
    house = model()
    ground = house.storey("Ground", 0)
    house.space(ground, "Vestry", house.polygon(ELL), 2.5)
    house.space(ground, "Ghost", None, 2.5)
    house.fitting("IfcDoor", ground, (40, 40, 0), 0.9, 2.1)
    plan = house.plan()
    says = " ".join(doubt.says for doubt in plan.doubts)
    assert len(plan.rooms) == 1
    assert "1 spaces of the model have no shape" in says
    assert "1 doors or windows have no size or stand by no room" in says
    assert "What Vestry is used for is not known" in says


def test_a_space_made_of_others_and_one_outdoors_are_no_rooms(model):
    house = model()
    ground = house.storey("Ground", 0)
    flat = house.space(ground, "Flat", house.polygon(ELL), 2.5)
    room = house.space(None, "Kitchen", house.polygon([(0, 0), (4, 0), (4, 3), (0, 3)]), 2.5)
    house.aggregate.assign_object(house.file, products=[room], relating_object=flat)
    terrace = house.space(ground, "Terrace", house.polygon([(9, 0), (12, 0), (12, 3), (9, 3)]), 1)
    terrace.PredefinedType = "EXTERNAL"
    plan = house.plan()
    assert [(room.name, room.storey) for room in plan.rooms] == [("Kitchen", 0)]


def test_a_model_without_spaces_is_refused(model):
    house = model()
    house.storey("Ground", 0)
    with pytest.raises(NoClosedRoom, match=r"house\.ifc: no space of the model has a shape; "):
        house.plan()


@pytest.mark.parametrize(
    "data", [b"ISO-10303-21;", b"ISO-10303-21;\nHEADER;\nDATA;\n#1=IFCNOTHING(", b"\xff\xfe\0"]
)
@pytest.mark.usefixtures("model")
def test_a_damaged_model_is_refused_in_one_sentence(data):
    with pytest.raises(EstimatorError, match=r"^house\.ifc: .*damaged or cut off; .*\.$"):
        ifc_plan(data, "house.ifc", USES)


def test_without_the_extra_one_sentence_says_what_to_install(monkeypatch):
    monkeypatch.setitem(sys.modules, "ifcopenshell", None)
    with pytest.raises(SourceError, match=r'pip install "estimator\[ifc\]"'):
        ifc_plan(b"ISO-10303-21;", "house.ifc", USES)
