from attrs import evolve

from estimator.plan.room import Basis
from estimator.surfaces.schedule import Lie, RoomSchedule, Schedule, Surface, SurfaceKind
from estimator.treatment.zoning import ZoneRule, zoned

FLOOR = Surface(
    kind=SurfaceKind.FLOOR,
    item="floor",
    label="Floor",
    lie=Lie.LEVEL,
    zone="general",
    gross=10,
    treated=10,
    basis=Basis.MEASURED,
)
HANDLE = evolve(FLOOR, kind=SurfaceKind.TOUCH_POINT, item="handle", label="Handle")
WORKTOP = evolve(FLOOR, kind=SurfaceKind.FURNITURE, item="worktop", food_contact=True)
KITCHEN = RoomSchedule(
    room="a",
    name="A",
    use="kitchen",
    use_label="Kitchen",
    storey=0,
    floor_area=10,
    perimeter=13,
    height=2.4,
    volume=24,
    surfaces=[FLOOR, HANDLE, WORKTOP],
)
SITE = Schedule(rooms=(KITCHEN, evolve(KITCHEN, room="b", use="hall")))


def rule(zone: str, *uses: str, **which) -> ZoneRule:
    return ZoneRule(slug=zone, uses=uses, zone=zone, source="invented", as_of="2026", **which)


def zones(*rules: ZoneRule) -> list[list[str]]:
    return [[surface.zone for surface in room.surfaces] for room in zoned(SITE, rules).rooms]


def test_without_rules_every_surface_keeps_its_zone():
    assert zoned(SITE, ()) is SITE
    assert zones(rule("strong", "ward")) == [["general"] * 3] * 2


def test_a_rule_holds_for_its_uses_and_kinds_of_surface():
    assert zones(rule("strong", "kitchen", surfaces=[SurfaceKind.TOUCH_POINT])) == [
        ["general", "strong", "general"],
        ["general"] * 3,
    ]


def test_a_rule_may_hold_for_every_use_and_only_where_food_touches():
    assert zones(rule("food", "*", food_contact=True)) == [["general", "general", "food"]] * 2


def test_of_several_rules_the_last_holds():
    found = zones(rule("strong", "*"), rule("food", "kitchen", food_contact=True))

    assert found == [["strong", "strong", "food"], ["strong"] * 3]
