"""The buildings of Larkfield, an invented small town: every sample plan shows one of them.

Sizes are on wall centre lines; the rooms are smaller by half a wall on every side.
"""
