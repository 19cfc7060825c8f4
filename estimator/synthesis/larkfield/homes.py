"""Where people of Larkfield live."""

from estimator.synthesis.buildings import building, door, passage, room, window
from estimator.synthesis.layouts import Layout, Space


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


def weavers_loft() -> Layout:
    """Return a loft flat with two bedrooms."""
    high = 2.6
    return building(
        "The Weaver's Loft",
        [
            room("Living Room", "living_room", 0, 0, 6.4, 5.0, height=high),
            room("Dining", "dining_room", 0, 5.0, 3.6, 4.2, height=high),
            room("Kitchen", "kitchen", 3.6, 5.0, 3.6, 4.2, height=high),
            room("Hall", "hall", 6.4, 3.4, 5.0, 1.6, height=high),
            room("Bathroom", "bathroom", 6.4, 0, 2.4, 3.4, height=high),
            room("Bedroom 2", "bedroom", 8.8, 0, 4.2, 3.4, height=high),
            room("Wardrobe", "closet", 11.4, 3.4, 1.6, 1.6, height=high),
            room("Principal Bedroom", "bedroom", 8.6, 5.0, 4.4, 4.2, height=high),
            room("WC", "toilet", 7.2, 5.0, 1.4, 2.0, height=high),
            room("Laundry", "utility_room", 7.2, 7.0, 1.4, 2.2, height=high),
        ],
        [
            door("Hall", "Living Room", 0.5, width=0.9, opens="out"),
            door("Bathroom", "Hall", 0.8, width=0.8, hinge="end"),
            door("Bedroom 2", "Hall", 0.3),
            door("Wardrobe", "Hall", 0.5, width=0.7, manner="folding", opens="out"),
            door("Principal Bedroom", "Hall", 0.35),
            door("WC", "Hall", 0.5, width=0.7, opens="in"),
            door("Laundry", "Kitchen", 0.5, width=0.7, manner="sliding"),
            passage("Dining", "Living Room", 0.5, width=1.8),
            passage("Kitchen", "Dining", 0.25, width=1.2),
            passage("Kitchen", "Living Room", 0.3, width=1.4),
            door("Living Room", "west", 0.88, width=0.95, hinge="end"),
            window("Living Room", "north", 0.2, width=1.8),
            window("Living Room", "north", 0.85, width=1.8),
            window("Living Room", "west", 0.2, width=1.6),
            window("Dining", "west", 0.5, width=1.8),
            window("Dining", "south", 0.5, width=1.6),
            window("Kitchen", "south", 0.5, width=1.6),
            window("Laundry", "south", 0.5, width=0.6, sill=1.4),
            window("Bathroom", "north", 0.5, width=0.8, sill=1.4),
            window("Bedroom 2", "north", 0.5, width=1.8),
            window("Principal Bedroom", "east", 0.5, width=2.0),
            window("Principal Bedroom", "south", 0.5, width=1.6),
        ],
        outer_wall=0.32,
        inner_wall=0.14,
    )


def mill_cottage() -> Layout:
    """Return the ground floor of a stone cottage with a stair."""
    return building(
        "Mill Cottage, ground floor",
        [
            room("Parlour", "living_room", 0, 0, 4.6, 4.8, height=2.3),
            room("Hall", "hall", 4.6, 0, 2.0, 3.0, height=2.3),
            room("Stairs", "stairs", 4.6, 3.0, 2.0, 3.2, height=2.3),
            room("Dining Room", "dining_room", 6.6, 0, 4.4, 4.2, height=2.3),
            room("Study", "office", 0, 4.8, 4.6, 3.6, height=2.3),
            room("Kitchen", "kitchen", 6.6, 4.2, 4.4, 4.2, height=2.3),
            room("Pantry", "closet", 4.6, 6.2, 2.0, 2.2, height=2.3),
            room("Wash House", "laundry", 11.0, 4.2, 2.6, 4.2, height=2.2),
        ],
        [
            door("Hall", "north", 0.5, width=1.0),
            door("Parlour", "Hall", 0.5),
            door("Dining Room", "Hall", 0.5),
            passage("Stairs", "Hall", 0.5, width=1.0),
            door("Study", "Parlour", 0.7),
            door("Kitchen", "Dining Room", 0.3),
            door("Pantry", "Kitchen", 0.6, width=0.7),
            door("Wash House", "Kitchen", 0.3, width=0.8),
            door("Wash House", "east", 0.75, width=0.8),
            window("Parlour", "north", 0.5, width=1.2),
            window("Parlour", "west", 0.5, width=1.2),
            window("Dining Room", "north", 0.5, width=1.2),
            window("Dining Room", "east", 0.5, width=1.2),
            window("Study", "west", 0.5, width=1.0),
            window("Study", "south", 0.5, width=1.0),
            window("Kitchen", "south", 0.5, width=1.4),
            window("Wash House", "south", 0.5, width=0.9),
            window("Pantry", "south", 0.5, width=0.5, sill=1.4),
        ],
        outer_wall=0.5,
        inner_wall=0.2,
    )


def hill_house() -> Layout:
    """Return a one-storey house drawn in feet and inches, with a garage."""
    inch = 0.0254  # exact: international yard and pound agreement, 1959

    def feet(name: str, use: str, *inches: float) -> Space:
        left, top, width, depth = (number * inch for number in inches)
        return room(name, use, left, top, width, depth, height=96 * inch)

    return building(
        "Hill House",
        [
            feet("Garage", "garage", 0, 0, 244, 256),
            feet("Kitchen", "kitchen", 244, 0, 154, 166),
            feet("Family Room", "living_room", 398, 0, 220, 226),
            feet("Laundry", "laundry", 244, 166, 94, 60),
            feet("Pantry", "closet", 338, 166, 60, 60),
            feet("Hall", "hall", 338, 226, 280, 48),
            feet("Bath", "bathroom", 338, 274, 100, 118),
            feet("Bedroom 2", "bedroom", 438, 274, 180, 142),
            feet("Bedroom 1", "bedroom", 618, 178, 150, 238),
            feet("Master Bath", "bathroom", 618, 64, 150, 114),
            feet("Foyer", "lobby", 244, 226, 94, 166),
        ],
        [
            door("Garage", "south", 0.5, width=192 * inch, manner="garage"),
            door("Garage", "Laundry", 0.5, width=32 * inch, opens="in"),
            door("Laundry", "Kitchen", 0.5, width=30 * inch),
            door("Pantry", "Kitchen", 0.4, width=24 * inch, opens="out"),
            passage("Kitchen", "Family Room", 0.5, width=72 * inch),
            passage("Family Room", "Hall", 0.3, width=48 * inch),
            passage("Foyer", "Hall", 0.5, width=36 * inch),
            door("Foyer", "south", 0.5, width=36 * inch),
            door("Bath", "Hall", 0.3, width=28 * inch),
            door("Bedroom 2", "Hall", 0.75, width=30 * inch, hinge="end"),
            door("Bedroom 1", "Hall", 0.5, width=30 * inch),
            door("Master Bath", "Bedroom 1", 0.4, width=28 * inch),
            window("Kitchen", "north", 0.5, width=60 * inch),
            window("Family Room", "north", 0.25, width=60 * inch),
            window("Family Room", "north", 0.8, width=60 * inch),
            window("Bath", "south", 0.5, width=30 * inch, sill=1.4),
            window("Bedroom 2", "south", 0.5, width=60 * inch),
            window("Bedroom 1", "south", 0.5, width=60 * inch),
            window("Bedroom 1", "east", 0.4, width=48 * inch),
            window("Master Bath", "east", 0.5, width=30 * inch, sill=1.4),
        ],
        outer_wall=8 * inch,
        inner_wall=4 * inch,
    )


def orchard_bungalow() -> Layout:
    """Return a bungalow with two bedrooms, drawn to scale on a sheet."""
    return building(
        "Orchard Bungalow",
        [
            room("Living / Dining", "living_room", 0, 0, 6.2, 5.2),
            room("Kitchen", "kitchen", 6.2, 0, 3.4, 3.6),
            room("Utility", "utility_room", 9.6, 0, 2.2, 3.6),
            room("Hall", "hall", 6.2, 3.6, 5.6, 1.6),
            room("Bedroom 1", "bedroom", 0, 5.2, 4.4, 4.0),
            room("Bedroom 2", "bedroom", 4.4, 5.2, 3.8, 4.0),
            room("Bathroom", "bathroom", 8.2, 5.2, 3.6, 2.2),
            room("Airing", "closet", 8.2, 7.4, 3.6, 1.8),
        ],
        [
            door("Hall", "east", 0.5, width=0.95),
            door("Living / Dining", "Hall", 0.5, width=0.85),
            door("Kitchen", "Hall", 0.3),
            door("Utility", "Kitchen", 0.3, width=0.75),
            door("Utility", "east", 0.3, width=0.8),
            door("Bedroom 1", "Living / Dining", 0.5),
            door("Bedroom 2", "Hall", 0.5),
            door("Bathroom", "Hall", 0.3, width=0.75),
            door("Airing", "Bedroom 2", 0.5, width=0.7, opens="in"),
            window("Living / Dining", "north", 0.3, width=2.1),
            window("Living / Dining", "west", 0.5, width=1.8),
            window("Kitchen", "north", 0.5, width=1.5),
            window("Bedroom 1", "west", 0.5, width=1.5),
            window("Bedroom 1", "south", 0.5, width=1.5),
            window("Bedroom 2", "south", 0.5, width=1.5),
            window("Bathroom", "east", 0.5, width=0.75, sill=1.4),
        ],
        outer_wall=0.3,
        inner_wall=0.1,
    )
