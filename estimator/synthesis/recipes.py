"""What stands in a room of each use, and how it is arranged."""

import attrs

from estimator.synthesis.floors import Floor, box_of
from estimator.synthesis.furnishing import Recipe
from estimator.synthesis.groups import Group, Item, group, one, row, table


def _bedroom(floor: Floor) -> None:
    double = group(
        [
            ("bed_double", 0, 1.025, 0),
            ("bedside_table", -1.0, 0.2, 0),
            ("bedside_table", 1.0, 0.2, 0),
        ],
        front=0.5,
    )
    single = group([("bed_single", 0, 1.0, 0), ("bedside_table", -0.72, 0.2, 0)], front=0.3)
    floor.against_wall(double, single, one("bed_single"))
    floor.against_wall(one("wardrobe", front=0.55, tall=True), corner=0.6)
    if floor.size > 11:
        floor.against_wall(one("chest_of_drawers", front=0.5))
    if floor.size > 14:
        floor.against_wall(_workplace("desk", "task_chair"), near="window")


def _living_room(floor: Floor) -> None:
    seats = group([("sofa", 0, 0.45, 0), ("coffee_table", 0, 1.55, 0)], spare=0.05, front=0.6)
    floor.against_wall(seats, one("sofa", front=0.6))
    if floor.size > 24:
        floor.in_middle(table("dining_table", "dining_chair", sides=2, ends=True))
    floor.against_wall(one("tv_unit", front=0.5))
    if floor.size > 15:
        floor.against_wall(one("armchair", front=0.3), corner=0.8)
    floor.against_wall(one("bookcase", tall=True), corner=0.3)
    floor.against_wall(one("plant"), corner=3.0)


def _kitchen(floor: Floor) -> None:
    run = ["refrigerator", "kitchen_base_unit", "sink", "dishwasher", "cooker", "kitchen_base_unit"]
    floor.against_wall(
        *(row(*run[:length]) for length in (6, 5)),
        row("refrigerator", "sink", "cooker", "kitchen_base_unit"),
        row("refrigerator", "sink", "cooker"),
        row("sink", "cooker"),
        corner=0.8,
    )
    if floor.size > 20:
        floor.in_middle(one("kitchen_island"))
    elif floor.size > 9:
        floor.against_wall(
            row(*["kitchen_base_unit"] * 3), row(*["kitchen_base_unit"] * 2), corner=0.8
        )
    if floor.size > 12:
        floor.in_middle(
            table("dining_table", "dining_chair", sides=2, clear=0.25),
            table("restaurant_table", "dining_chair", sides=1, clear=0.2),
        )


def _dining_room(floor: Floor) -> None:
    floor.in_middle(
        table("dining_table", "dining_chair", sides=3, ends=True),
        table("dining_table", "dining_chair", sides=2),
        table("restaurant_table", "dining_chair", sides=1),
    )
    floor.against_wall(one("chest_of_drawers"), corner=0.2)
    floor.against_wall(one("plant"), corner=3.0)


def _bathroom(floor: Floor) -> None:
    floor.against_wall(one("bath", front=0.3), one("shower", front=0.3), corner=3.0)
    floor.against_wall(group([("toilet", 0, 0.35, 0)], spare=0.12, front=0.3), corner=0.2)
    floor.against_wall(one("wash_basin", front=0.4))
    if floor.size > 7:
        floor.against_wall(one("shower", front=0.3), corner=3.0)


def _toilet(floor: Floor) -> None:
    if floor.size > 6:
        most = min(4, max(1, int(floor.size // 3.5)))
        floor.against_wall(*(_cubicles(count) for count in range(most, 0, -1)), corner=1.0)
        basins = ["wash_basin"] * max(1, int(floor.size // 5))
        floor.against_wall(row(*basins, front=0.5), one("wash_basin", front=0.4))
        floor.against_wall(one("hand_dryer", front=0.3))
        return
    floor.against_wall(group([("toilet", 0, 0.35, 0)], spare=0.12, front=0.25), one("toilet"))
    floor.against_wall(one("wash_basin", front=0.2), one("wash_basin"))


def _cubicles(count: int) -> Group:
    wide = 0.92
    items: list[Item] = []
    for index in range(count + 1):
        x = (index - count / 2) * wide
        items.append(("toilet_partition", x, 0.75, 90.0))
        if index < count:
            items.append(("toilet", x + wide / 2, 0.36, 0.0))
    return group(items, front=0.6)


def _hall(floor: Floor) -> None:
    if floor.size > 5:
        floor.against_wall(one("chest_of_drawers", front=0.5))


def _utility_room(floor: Floor) -> None:
    floor.against_wall(row("washing_machine", "sink"), row("washing_machine"), corner=1.0)
    floor.against_wall(one("bookcase", front=0.3, tall=True))


def _laundry(floor: Floor) -> None:
    floor.against_wall(row(*["washing_machine"] * 4), row(*["washing_machine"] * 2), corner=1.0)
    floor.against_wall(row("sink", "kitchen_base_unit"), one("sink"))


def _closet(floor: Floor) -> None:
    floor.against_wall(one("office_shelving", tall=True), one("bookcase", tall=True), corner=0.5)


def _workplace(desk: str, chair: str) -> Group:
    return group([(desk, 0, 0.375, 0), (chair, 0, 0.98, 180)], front=0.25)


def _office(floor: Floor) -> None:
    floor.against_wall(_workplace("desk", "task_chair"), near="window")
    if floor.size > 13:
        floor.against_wall(_workplace("desk", "task_chair"), near="window")
    floor.against_wall(row("filing_cabinet", "filing_cabinet"), one("filing_cabinet"), corner=1.0)
    if floor.size > 10:
        floor.against_wall(one("office_shelving", front=0.4, tall=True), corner=0.5)


def _open_office(floor: Floor) -> None:
    pair: list[tuple[str, float, float, float]] = []
    for x in (-0.75, 0.75):
        pair += [
            ("desk", x, 1.18, 180),
            ("desk", x, 1.93, 0),
            ("task_chair", x, 0.58, 0),
            ("task_chair", x, 2.53, 180),
        ]
    floor.rows(group(pair, spare=0.35, front=0.2), turn=0, edge=0.2)
    floor.against_wall(row(*["filing_cabinet"] * 4, front=0.2), corner=1.0)
    floor.against_wall(one("printer", front=0.3), corner=0.5)
    floor.against_wall(one("plant"), corner=3.0)


def _meeting_room(floor: Floor) -> None:
    floor.in_middle(
        table("meeting_table", "meeting_chair", sides=4, ends=True),
        table("meeting_table", "meeting_chair", sides=3, clear=0.2),
        table("dining_table", "meeting_chair", sides=2),
        table("restaurant_table", "meeting_chair", sides=1, clear=0.1),
    )
    floor.against_wall(one("whiteboard", front=0.2, tall=True))


def _reception(floor: Floor) -> None:
    desk = group([("reception_counter", 0, 1.6, 0), ("task_chair", 0, 0.75, 0)], front=0.9)
    floor.against_wall(desk)
    floor.against_wall(row(*["waiting_chair"] * 4), row(*["waiting_chair"] * 2))
    floor.against_wall(one("plant"), corner=3.0)


def _waiting_room(floor: Floor) -> None:
    for _ in range(max(1, int(floor.size // 7))):
        floor.against_wall(*(row(*["waiting_chair"] * count) for count in (5, 4, 3)), corner=0.2)
    if floor.size > 14:
        floor.in_middle(one("coffee_table"))
    floor.against_wall(one("toy_box"), corner=1.0)
    floor.against_wall(one("plant"), corner=3.0)


def _exam_room(floor: Floor) -> None:
    couch = group([("exam_couch", 0, 0.95, 0)], spare=0.35, front=0.2)
    floor.against_wall(couch, one("exam_couch", front=0.2))
    floor.against_wall(_workplace("desk", "task_chair"), corner=0.5, near="window")
    floor.against_wall(one("medical_cabinet", front=0.4, tall=True), corner=0.4)
    floor.against_wall(one("wash_basin", front=0.4))
    floor.against_wall(one("trolley"), corner=0.5)


def _classroom(floor: Floor) -> None:
    left, top, right, bottom = floor.bounds
    board = group(
        [("whiteboard", 0, 0.04, 0), ("teacher_desk", 0, 1.75, 180), ("task_chair", 0, 1.1, 0)],
        front=0.3,
    )
    is_wide = right - left >= bottom - top
    middle = (top + bottom if is_wide else left + right) / 2
    free = [
        (abs(place[0][is_wide] - middle) + 0.001 * place[1], place)
        for place, _ in floor.wall_places(board)
        if (place[1] % 180 != 0) == is_wide and floor.fits(box_of(board, place), tall=True)
    ]
    turn = 90.0
    if free:
        place = min(free)[1]
        turn = place[1]
        floor.put(board, place)
        floor.taken.append(box_of(attrs.evolve(board, width=99.0), place))
    pupils = group(
        [
            ("student_desk", 0, 0.5, 180),
            ("student_chair", -0.28, 0.95, 180),
            ("student_chair", 0.28, 0.95, 180),
        ],
        spare=0.12,
        front=0.16,
    )
    floor.rows(pupils, turn=turn, edge=0.35)
    floor.against_wall(one("bookcase", front=0.2, tall=True), corner=0.4)
    floor.against_wall(row(*["locker"] * 6, front=0.3, tall=True), corner=0.2)


def _staff_room(floor: Floor) -> None:
    floor.against_wall(row("refrigerator", "kitchen_base_unit", "sink"), one("sink"), corner=1.0)
    floor.in_middle(
        table("dining_table", "dining_chair", sides=3),
        table("dining_table", "dining_chair", sides=2),
        table("restaurant_table", "dining_chair", sides=1),
    )
    floor.against_wall(row(*["locker"] * 6, tall=True), row(*["locker"] * 3, tall=True), corner=0.3)
    floor.against_wall(one("sofa", front=0.4))


def _storage(floor: Floor) -> None:
    for _ in range(4):
        floor.against_wall(one("office_shelving", front=0.5, tall=True), corner=0.5)


def _nursery_room(floor: Floor) -> None:
    for _ in range(2):
        floor.against_wall(one("toy_shelf", front=0.3), corner=0.2)
    floor.against_wall(one("toy_box", front=0.3), corner=1.0)
    for _ in range(3):
        floor.against_wall(one("crib", front=0.4), corner=0.5)
    play = group(
        [
            ("play_table", 0, 1.0, 0),
            ("student_chair", 0, 0.36, 0),
            ("student_chair", 0, 1.64, 180),
            ("student_chair", -0.64, 1.0, -90),
            ("student_chair", 0.64, 1.0, 90),
        ],
        spare=0.3,
        front=0.3,
    )
    floor.rows(play, turn=0, edge=0.9, most=4)


def _restaurant_dining(floor: Floor) -> None:
    bar = group([("bar_counter", 0, 1.35, 0)], front=0.7)
    floor.against_wall(bar)
    floor.rows(
        table("restaurant_table", "restaurant_chair", sides=1, ends=True, clear=0.22),
        turn=0,
        edge=0.15,
    )
    floor.against_wall(one("plant"), corner=3.0)


def _restaurant_kitchen(floor: Floor) -> None:
    floor.against_wall(row("refrigerator", "refrigerator", "sink", "dishwasher"), corner=0.5)
    floor.against_wall(row("cooker", "cooker", "kitchen_base_unit"), row("cooker"), corner=0.5)
    floor.in_middle(one("prep_table"))


def _shop_floor(floor: Floor) -> None:
    floor.against_wall(group([("display_case", 0, 1.4, 0)], front=0.6))
    for _ in range(4):
        floor.against_wall(one("office_shelving", front=0.5, tall=True))


def _corridor(floor: Floor) -> None:
    if floor.size > 25:
        floor.against_wall(one("bench", front=0.8))


def _server_room(floor: Floor) -> None:
    floor.against_wall(row("wardrobe", tall=True), one("office_shelving", tall=True))


def _lobby(floor: Floor) -> None:
    floor.against_wall(row("armchair", "armchair"), one("armchair"), corner=0.3)
    floor.against_wall(one("plant"), corner=3.0)
    if floor.size > 12:
        floor.against_wall(one("vending_machine", front=0.5), corner=0.5)


RECIPES: dict[str, Recipe] = {
    "bathroom": _bathroom,
    "bedroom": _bedroom,
    "classroom": _classroom,
    "closet": _closet,
    "corridor": _corridor,
    "dining_room": _dining_room,
    "exam_room": _exam_room,
    "hall": _hall,
    "kitchen": _kitchen,
    "laundry": _laundry,
    "living_room": _living_room,
    "lobby": _lobby,
    "meeting_room": _meeting_room,
    "nursery_room": _nursery_room,
    "office": _office,
    "open_office": _open_office,
    "reception": _reception,
    "restaurant_dining": _restaurant_dining,
    "restaurant_kitchen": _restaurant_kitchen,
    "server_room": _server_room,
    "shop_floor": _shop_floor,
    "staff_room": _staff_room,
    "storage": _storage,
    "toilet": _toilet,
    "treatment_room": _exam_room,
    "utility_room": _utility_room,
    "waiting_room": _waiting_room,
}
