"""What the network tells apart: the one list that drawings, training and reading share."""

CLASSES = ("outside", "wall", "door", "window", "room")
OUTSIDE, WALL, DOOR, WINDOW, ROOM = range(len(CLASSES))

# Sides of the pictures the network takes are multiples of this.
STRIDE = 32

# How deep inside a room a pixel lies is told up to this many pixels from the room's edge.
DEEPEST_PX = 24.0
