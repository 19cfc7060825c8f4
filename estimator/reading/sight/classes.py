"""What the network tells apart: the lists that drawings, training and reading share."""

CLASSES = ("outside", "wall", "door", "window", "room")
OUTSIDE, WALL, DOOR, WINDOW, ROOM = range(len(CLASSES))

CONTENTS = (
    "nothing",
    "swing",
    "passage",
    "stairs",
    "bed",
    "sofa",
    "armchair",
    "chair",
    "table",
    "worktop",
    "cupboard",
    "refrigerator",
    "cooker",
    "sink",
    "toilet",
    "wash_basin",
    "bath",
    "shower",
    "washing_machine",
)
"""What stands or moves on a floor, or, for a passage, fills a gap that no leaf closes."""
NOTHING, SWING, PASSAGE, STAIRS = range(4)

# Sides of the pictures the network takes are multiples of this.
STRIDE = 32

# Contents are told for squares of so many pixels a side.
CONTENTS_STEP = 2

# How deep inside a room a pixel lies is told up to this many pixels from the room's edge.
DEEPEST_PX = 24.0
