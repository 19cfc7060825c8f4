"""Edges of floors beside openings; how broad a frame is is our own rule."""

import numpy as np

from estimator.reading.sight.smoothing import beside_openings, smoothed

WALL = 8.0


def ragged_room():
    """A room with a notch and a spike three pixels broad in its upper and in its lower edge."""
    drawn = np.zeros((100, 100), np.int32)
    drawn[20:80, 20:80] = 1
    for edge in (20, 76):
        drawn[edge : edge + 4, 40:43] = 0
    drawn[16:20, 60:63] = drawn[80:84, 60:63] = 1
    return drawn


def test_an_edge_is_smooth_beside_an_opening_and_stays_as_it_is_elsewhere():
    drawn = ragged_room()
    near = np.zeros(drawn.shape, np.bool_)
    near[:40] = True

    face = smoothed(drawn, 1, near, WALL)

    smooth = np.zeros(drawn.shape, np.bool_)
    smooth[20:80, 20:80] = True
    assert (face[:50] == smooth[:50]).all()
    assert (face[50:] == (drawn[50:] == 1)).all()


def test_no_other_room_loses_floor():
    drawn = ragged_room()
    drawn[20:24, 40:43] = 2

    face = smoothed(drawn, 1, np.ones(drawn.shape, np.bool_), WALL)

    assert not face[drawn == 2].any()


def test_what_is_near_to_an_opening_reaches_a_wall_beyond_it(new_floor):
    floor = new_floor().room(40, 60, 240, 160).door(100, 54, 130, 60)
    size = floor.classes.shape

    near = beside_openings(floor.sight(), 6, (2 * size[0], 2 * size[1]))

    rows, columns = np.nonzero(near)
    assert (rows.min(), rows.max()) == (2 * (54 - 6), 2 * (60 + 6) - 1)
    assert (columns.min(), columns.max()) == (2 * (100 - 6), 2 * (130 + 6) - 1)
