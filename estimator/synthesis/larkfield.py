"""The buildings of Larkfield, an invented small town: every sample plan shows one of them.

Sizes are on wall centre lines; the rooms are smaller by half a wall on every side.
"""

from estimator.synthesis.buildings import building, door, passage, room, window
from estimator.synthesis.layouts import Layout


def family_home() -> Layout:
    """Return a bungalow with three bedrooms."""
    return building(
        "Alder House, ground floor",
        [
            room("Living Room", "living_room", 0, 0, 5.4, 4.6),
            room("Kitchen", "kitchen", 5.4, 0, 4.0, 4.6),
            room("Utility", "utility_room", 9.4, 0, 1.9, 2.4),
            room("WC", "toilet", 11.3, 0, 1.7, 2.4),
            room("Hall", "hall", 4.2, 2.4, 8.8, 3.4, less=(4.2, 2.4, 5.2, 2.2)),
            room("Bedroom 1", "bedroom", 0, 4.6, 4.2, 5.0),
            room("Bedroom 2", "bedroom", 4.2, 5.8, 3.6, 3.8),
            room("Bathroom", "bathroom", 7.8, 5.8, 2.2, 3.8),
            room("Bedroom 3", "bedroom", 10.0, 5.8, 3.0, 3.8),
        ],
        [
            door("Hall", "east", 0.35, width=0.95),
            door("Living Room", "Hall", 0.5),
            passage("Kitchen", "Living Room", 0.8, width=1.4),
            door("Kitchen", "Hall", 0.62),
            door("Utility", "Kitchen", 0.9, width=0.76, hinge="end"),
            door("Utility", "north", 0.5, width=0.8),
            door("WC", "Hall", 0.6, width=0.7),
            door("Bedroom 1", "Hall", 0.5),
            door("Bedroom 2", "Hall", 0.9, hinge="end"),
            door("Bathroom", "Hall", 0.2, width=0.76),
            door("Bedroom 3", "Hall", 0.2),
            window("Living Room", "north", 0.5, width=2.0),
            window("Living Room", "west", 0.5, width=1.6),
            window("Kitchen", "north", 0.5, width=1.6),
            window("WC", "north", 0.5, width=0.6, sill=1.4),
            window("Bedroom 1", "west", 0.4, width=1.6),
            window("Bedroom 1", "south", 0.5, width=1.6),
            window("Bedroom 2", "south", 0.5, width=1.6),
            window("Bathroom", "south", 0.5, width=0.8, sill=1.4),
            window("Bedroom 3", "south", 0.5, width=1.4),
        ],
        outer_wall=0.3,
        inner_wall=0.12,
    )


def riverside_flat() -> Layout:
    """Return a flat with two bedrooms and a study."""
    return building(
        "Flat 3, Riverside Court",
        [
            room("Living Room", "living_room", 0, 0, 5.4, 4.4),
            room("Kitchen", "kitchen", 5.4, 0, 2.8, 4.4),
            room("Bedroom 1", "bedroom", 8.2, 0, 3.8, 4.4),
            room("Hall", "hall", 0, 4.4, 9.8, 1.3),
            room("Linen", "closet", 9.8, 4.4, 2.2, 1.3),
            room("Store", "storage", 0, 5.7, 2.0, 3.2),
            room("Study", "office", 2.0, 5.7, 3.4, 3.2),
            room("Bathroom", "bathroom", 5.4, 5.7, 2.8, 3.2),
            room("Bedroom 2", "bedroom", 8.2, 5.7, 3.8, 3.2),
        ],
        [
            door("Hall", "west", 0.5, width=0.9),
            door("Living Room", "Hall", 0.7),
            door("Kitchen", "Hall", 0.3),
            passage("Kitchen", "Living Room", 0.25, width=1.2),
            door("Bedroom 1", "Hall", 0.4),
            door("Linen", "Hall", 0.5, width=0.7, opens="out"),
            door("Store", "Hall", 0.5, width=0.7),
            door("Study", "Hall", 0.2),
            door("Bathroom", "Hall", 0.8, width=0.76, hinge="end"),
            door("Bedroom 2", "Hall", 0.4),
            window("Living Room", "north", 0.25, width=1.5),
            window("Living Room", "north", 0.8, width=1.5),
            window("Kitchen", "north", 0.5, width=1.2),
            window("Bedroom 1", "north", 0.5, width=1.8),
            window("Bedroom 2", "south", 0.5, width=1.8),
            window("Study", "south", 0.5, width=1.4),
            window("Bathroom", "south", 0.5, width=0.8, sill=1.4),
        ],
        outer_wall=0.28,
        inner_wall=0.1,
    )


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
