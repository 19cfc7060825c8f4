"""Where people of Larkfield work, learn, heal and eat."""

from estimator.synthesis.buildings import building, door, passage, room, window
from estimator.synthesis.layouts import Layout


def town_office() -> Layout:
    """Return the office of a small firm of surveyors on the market square."""
    high = 2.7
    return building(
        "Market Square 9, first floor",
        [
            room("Office 1", "office", 0, 0, 3.8, 5.0, height=high),
            room("Office 2", "office", 3.8, 0, 3.6, 5.0, height=high),
            room("Open Office", "open_office", 7.4, 0, 8.6, 5.0, height=high),
            room("Meeting Room", "meeting_room", 16.0, 0, 4.4, 5.0, height=high),
            room("Reception", "reception", 0, 5.0, 5.4, 6.8, height=high),
            room("Corridor", "corridor", 5.4, 5.0, 15.0, 1.8, height=high),
            room("Staff Kitchen", "staff_room", 5.4, 6.8, 3.8, 5.0, height=high),
            room("Toilet W", "toilet", 9.2, 6.8, 2.4, 5.0, height=high),
            room("Toilet M", "toilet", 11.6, 6.8, 2.4, 5.0, height=high),
            room("Server", "server_room", 14.0, 6.8, 2.2, 2.4, height=high),
            room("Store", "storage", 14.0, 9.2, 2.2, 2.6, height=high),
            room("Director", "office", 16.2, 6.8, 4.2, 5.0, height=high),
        ],
        [
            door("Reception", "west", 0.7, width=1.6, manner="double"),
            passage("Corridor", "Reception", 0.5, width=1.4),
            door("Office 1", "Reception", 0.75, width=0.9, hinge="end"),
            door("Office 2", "Corridor", 0.6, width=0.9),
            door("Open Office", "Corridor", 0.12, width=1.6, manner="double"),
            door("Meeting Room", "Corridor", 0.3, width=0.9),
            door("Staff Kitchen", "Corridor", 0.2, width=0.9),
            door("Toilet W", "Corridor", 0.5, width=0.8),
            door("Toilet M", "Corridor", 0.5, width=0.8),
            door("Server", "Corridor", 0.5, width=0.8),
            door("Store", "Director", 0.5, width=0.8),
            door("Director", "Corridor", 0.7, width=0.9, hinge="end"),
            door("Corridor", "east", 0.5, width=1.0, opens="out"),
            *[window("Open Office", "north", at, width=1.8) for at in (0.0, 0.33, 0.67, 1.0)],
            window("Office 1", "north", 0.5, width=1.8),
            window("Office 2", "north", 0.5, width=1.8),
            window("Meeting Room", "north", 0.5, width=2.4),
            window("Reception", "south", 0.5, width=2.4),
            window("Staff Kitchen", "south", 0.5, width=1.8),
            window("Toilet W", "south", 0.5, width=0.8, sill=1.4),
            window("Toilet M", "south", 0.5, width=0.8, sill=1.4),
            window("Director", "south", 0.5, width=2.0),
            window("Director", "east", 0.6, width=1.6),
        ],
        outer_wall=0.3,
        inner_wall=0.12,
    )


def school_wing() -> Layout:
    """Return the classroom wing of the primary school."""
    high = 3.0
    return building(
        "Larkfield Primary School, east wing",
        [
            room("Classroom 1", "classroom", 0, 0, 8.2, 6.8, height=high),
            room("Classroom 2", "classroom", 8.2, 0, 8.2, 6.8, height=high),
            room("Classroom 3", "classroom", 16.4, 0, 8.2, 6.8, height=high),
            room("Corridor", "corridor", 0, 6.8, 24.6, 2.2, height=high),
            room("Staff Room", "staff_room", 0, 9.0, 5.4, 5.0, height=high),
            room("Store", "storage", 5.4, 9.0, 2.0, 5.0, height=high),
            room("Girls", "toilet", 7.4, 9.0, 3.0, 5.0, height=high),
            room("Boys", "toilet", 10.4, 9.0, 3.0, 5.0, height=high),
            room("Stairs", "stairs", 13.4, 9.0, 3.0, 5.0, height=high),
            room("Classroom 4", "classroom", 16.4, 9.0, 8.2, 5.0, height=high),
        ],
        [
            door("Classroom 1", "Corridor", 0.06, width=0.95),
            door("Classroom 2", "Corridor", 0.06, width=0.95),
            door("Classroom 3", "Corridor", 0.06, width=0.95),
            door("Classroom 4", "Corridor", 0.06, width=0.95),
            door("Staff Room", "Corridor", 0.8, width=0.9),
            door("Store", "Corridor", 0.5, width=0.9),
            door("Girls", "Corridor", 0.8, width=0.9),
            door("Boys", "Corridor", 0.8, width=0.9),
            passage("Stairs", "Corridor", 0.5, width=1.6),
            door("Corridor", "west", 0.5, width=1.6, manner="double"),
            door("Corridor", "east", 0.5, width=1.6, manner="double"),
            *[
                window(f"Classroom {number}", "north", at, width=1.8)
                for number in (1, 2, 3)
                for at in (0.1, 0.5, 0.9)
            ],
            *[window("Classroom 4", "south", at, width=1.8) for at in (0.1, 0.5, 0.9)],
            window("Staff Room", "south", 0.5, width=2.4),
            window("Girls", "south", 0.5, width=0.9, sill=1.6),
            window("Boys", "south", 0.5, width=0.9, sill=1.6),
            window("Stairs", "south", 0.5, width=1.2, sill=1.2),
        ],
        outer_wall=0.36,
        inner_wall=0.18,
    )


def health_clinic() -> Layout:
    """Return a small walk-in clinic."""
    high = 2.7
    return building(
        "Willow Lane Clinic",
        [
            room("Waiting Room", "waiting_room", 0, 0, 5.6, 6.6, height=high),
            room("Reception", "reception", 0, 6.6, 5.6, 4.8, height=high),
            room("Corridor", "corridor", 5.6, 4.8, 12.4, 1.8, height=high),
            room("Exam 1", "exam_room", 5.6, 0, 3.2, 4.8, height=high),
            room("Exam 2", "exam_room", 8.8, 0, 3.2, 4.8, height=high),
            room("Exam 3", "exam_room", 12.0, 0, 3.2, 4.8, height=high),
            room("Treatment", "treatment_room", 15.2, 0, 5.2, 4.8, height=high),
            room("Clean Store", "storage", 18.0, 4.8, 2.4, 1.8, height=high),
            room("Office", "office", 5.6, 6.6, 3.6, 4.8, height=high),
            room("Staff", "staff_room", 9.2, 6.6, 4.2, 4.8, height=high),
            room("WC 1", "toilet", 13.4, 6.6, 2.2, 2.4, height=high),
            room("WC 2", "toilet", 15.6, 6.6, 2.2, 2.4, height=high),
            room("Linen", "laundry", 13.4, 9.0, 4.4, 2.4, height=high),
            room("Laboratory", "exam_room", 17.8, 6.6, 2.6, 4.8, height=high),
        ],
        [
            door("Reception", "south", 0.35, width=1.6, manner="double"),
            passage("Waiting Room", "Reception", 0.5, width=2.0),
            passage("Corridor", "Waiting Room", 0.5, width=1.0),
            door("Exam 1", "Corridor", 0.8, width=0.95, hinge="end"),
            door("Exam 2", "Corridor", 0.8, width=0.95, hinge="end"),
            door("Exam 3", "Corridor", 0.8, width=0.95, hinge="end"),
            door("Treatment", "Corridor", 0.4, width=1.2),
            door("Clean Store", "Corridor", 0.5, width=0.9),
            door("Office", "Corridor", 0.75, width=0.9),
            door("Staff", "Corridor", 0.2, width=0.9),
            door("WC 1", "Corridor", 0.5, width=0.9),
            door("WC 2", "Corridor", 0.5, width=0.9),
            door("Linen", "Staff", 0.5, width=0.9),
            door("Laboratory", "Clean Store", 0.5, width=0.9),
            *[window(f"Exam {number}", "north", 0.5, width=1.4) for number in (1, 2, 3)],
            window("Treatment", "north", 0.5, width=2.0),
            window("Waiting Room", "north", 0.5, width=2.4),
            window("Waiting Room", "west", 0.5, width=2.4),
            window("Reception", "west", 0.5, width=1.8),
            window("Office", "south", 0.5, width=1.6),
            window("Staff", "south", 0.5, width=1.8),
            window("Linen", "south", 0.5, width=1.2, sill=1.4),
            window("Laboratory", "south", 0.5, width=1.4),
        ],
        outer_wall=0.3,
        inner_wall=0.12,
    )


def corner_cafe() -> Layout:
    """Return a small cafe."""
    return building(
        "Corner Cafe",
        [
            room("Cafe", "restaurant_dining", 0, 0, 7.6, 7.0, height=3.0),
            room("Kitchen", "restaurant_kitchen", 7.6, 0, 4.2, 4.4, height=3.0),
            room("Lobby", "hall", 7.6, 4.4, 1.5, 2.6, height=2.6),
            room("WC", "toilet", 9.1, 4.4, 2.7, 1.3, height=2.6),
            room("Store", "storage", 9.1, 5.7, 2.7, 1.3, height=2.6),
        ],
        [
            door("Cafe", "south", 0.3, width=1.6, manner="double"),
            door("Kitchen", "Cafe", 0.75, width=0.9),
            door("Lobby", "Cafe", 0.5, width=0.9),
            door("WC", "Lobby", 0.5, width=0.75),
            door("Store", "Lobby", 0.5, width=0.75, opens="out"),
            door("Kitchen", "east", 0.8, width=0.9),
            window("Cafe", "south", 0.9, width=2.4, sill=0.5),
            window("Cafe", "west", 0.2, width=2.0, sill=0.5),
            window("Cafe", "west", 0.8, width=2.0, sill=0.5),
            window("Kitchen", "north", 0.5, width=1.4),
        ],
        outer_wall=0.3,
        inner_wall=0.15,
    )


def meadow_nursery() -> Layout:
    """Return a day nursery for small children."""
    return building(
        "Meadow Nursery",
        [
            room("Baby Room", "nursery_room", 0, 0, 5.2, 5.0, height=2.6),
            room("Toddler Room", "nursery_room", 5.2, 0, 6.4, 5.0, height=2.6),
            room("Pre-school Room", "nursery_room", 11.6, 0, 6.4, 6.8, height=2.6),
            room("Corridor", "corridor", 0, 5.0, 11.6, 1.8, height=2.6),
            room("Entrance", "lobby", 0, 6.8, 3.4, 3.8, height=2.6),
            room("Office", "office", 3.4, 6.8, 2.8, 3.8, height=2.6),
            room("Milk Kitchen", "kitchen", 6.2, 6.8, 3.0, 3.8, height=2.6),
            room("Children's WC", "toilet", 9.2, 6.8, 3.4, 3.8, height=2.6),
            room("Staff Room", "staff_room", 12.6, 6.8, 5.4, 3.8, height=2.6),
        ],
        [
            door("Entrance", "south", 0.5, width=1.2),
            door("Entrance", "Corridor", 0.5, width=0.95),
            door("Baby Room", "Corridor", 0.7, width=0.95),
            door("Toddler Room", "Corridor", 0.3, width=0.95),
            door("Pre-school Room", "Corridor", 0.5, width=0.95),
            door("Office", "Corridor", 0.3, width=0.85),
            door("Milk Kitchen", "Corridor", 0.3, width=0.85),
            door("Children's WC", "Corridor", 0.4, width=0.85),
            door("Staff Room", "Pre-school Room", 0.5, width=0.85),
            door("Pre-school Room", "east", 0.5, width=1.6, manner="double", opens="out"),
            window("Baby Room", "north", 0.5, width=2.0),
            window("Baby Room", "west", 0.5, width=1.6),
            window("Toddler Room", "north", 0.25, width=1.8),
            window("Toddler Room", "north", 0.75, width=1.8),
            window("Pre-school Room", "north", 0.25, width=1.8),
            window("Pre-school Room", "north", 0.75, width=1.8),
            window("Office", "south", 0.5, width=1.4),
            window("Milk Kitchen", "south", 0.5, width=1.2),
            window("Children's WC", "south", 0.5, width=1.0, sill=1.4),
            window("Staff Room", "south", 0.5, width=2.0),
        ],
        outer_wall=0.3,
        inner_wall=0.12,
    )
