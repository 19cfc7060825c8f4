"""The reader on small plans drawn in the source; their truth is the numbers they are drawn with."""

import math
from itertools import pairwise

import cv2
import numpy as np
import pytest
import shapely
from attrs import evolve
from shapely.geometry import Polygon

from estimator.errors import NoClosedRoom, NoWalls, ReadingError
from estimator.plan.opening import OpeningKind
from estimator.reading.picture import Picture
from estimator.reading.strokes.reader import read_by_strokes as read


def areas(picture: Picture) -> list[float]:
    return sorted(room.outline_px.area for room in read(picture).plan.rooms)


def kinds(room) -> list[str]:
    return sorted(opening.kind.value for opening in room.openings)


def test_two_rooms_are_read_within_a_hundredth(two_rooms):
    left, right = read(two_rooms.picture()).plan.rooms

    assert left.outline_px.area == pytest.approx(300 * 360, rel=0.01)
    assert right.outline_px.area == pytest.approx(400 * 360, rel=0.01)
    assert left.outline_px.bounds == pytest.approx((100, 100, 400, 460), abs=1)


def test_rooms_are_named_in_reading_order_and_marked_as_read(two_rooms):
    plan = read(two_rooms.picture(file="flat.png", page=2)).plan

    assert [(room.id, room.name, room.use, room.basis) for room in plan.rooms] == [
        ("room-1", "Room 1", "room", "read"),
        ("room-2", "Room 2", "room", "read"),
    ]
    assert plan.storeys[0].source.file == "flat.png"
    assert plan.storeys[0].source.page == 2
    assert plan.scale is None
    assert all(room.ceiling_height is None and room.outline is None for room in plan.rooms)


def test_doors_and_windows_come_from_the_gaps_and_lead_to_the_other_room(two_rooms):
    left, right = read(two_rooms.picture()).plan.rooms

    assert kinds(left) == ["door"]
    assert kinds(right) == ["door", "door", "window"]
    (door,) = left.openings
    assert door.leads_to == right.id
    assert sorted((door.start_px, door.end_px)) == [
        pytest.approx((400, 200), abs=2),
        pytest.approx((400, 260), abs=2),
    ]
    window = next(one for one in right.openings if one.kind is OpeningKind.WINDOW)
    assert window.leads_to is None
    assert math.dist(window.start_px, window.end_px) == pytest.approx(150, abs=3)


def test_openings_lie_on_the_outline_of_their_room(two_rooms):
    for room in read(two_rooms.picture()).plan.rooms:
        for opening in room.openings:
            for end in (opening.start_px, opening.end_px):
                assert room.outline_px.exterior.distance(shapely.Point(end)) < 1e-6


def test_an_l_shaped_room_keeps_its_six_corners(l_shape):
    rooms = read(l_shape.picture()).plan.rooms
    (bent,) = [room for room in rooms if room.outline_px.area > 190_000]

    assert len(rooms) == 2
    assert len(bent.outline_px.exterior.coords) - 1 == 6
    assert bent.outline_px.area == pytest.approx(700 * 500 - 310 * 260, rel=0.01)


def test_a_slanted_wall_stays_slanted(new_sheet):
    corners = np.array([[100, 100], [700, 100], [850, 500], [100, 500]])
    sheet = new_sheet(1000, 650)
    cv2.polylines(sheet.pixels, [corners], True, 20, 21)
    sheet.clear(300, 485, 370, 515).line((300, 500), (300, 430)).swing((300, 500), 70, 270)
    (room,) = read(sheet.picture()).plan.rooms
    inside = Polygon(corners).buffer(-10.5, join_style="mitre")

    assert room.outline_px.area == pytest.approx(inside.area, rel=0.01)
    assert len(room.outline_px.exterior.coords) - 1 == 4
    angles = [
        math.degrees(math.atan2(end[1] - start[1], end[0] - start[0])) % 90
        for start, end in pairwise(room.outline_px.exterior.coords)
    ]
    slanted = [angle for angle in angles if 1 < angle < 89]
    assert len(slanted) == 1
    assert slanted[0] == pytest.approx(math.degrees(math.atan2(400, 150)), abs=1)


def test_hollow_walls_are_read_to_the_middle_of_their_lines(new_sheet):
    sheet = new_sheet(1000, 700)
    for left, top, right, bottom in (
        (80, 80, 920, 620),
        (100, 100, 400, 600),
        (420, 100, 900, 600),
    ):
        cv2.rectangle(sheet.pixels, (left, top), (right, bottom), 20, 3)
    sheet.clear(395, 300, 425, 370)
    sheet.line((400, 300), (420, 300), thick=3).line((400, 370), (420, 370), thick=3)
    sheet.line((420, 300), (490, 300)).swing((420, 300), 70, 0)
    sheet.clear(600, 595, 700, 625)
    sheet.line((600, 600), (600, 620), thick=3).line((700, 600), (700, 620), thick=3)
    left, right = read(sheet.picture()).plan.rooms

    assert left.outline_px.area == pytest.approx(300 * 500, rel=0.01)
    assert right.outline_px.area == pytest.approx(480 * 500, rel=0.01)


def test_single_lines_are_walls_when_nothing_thicker_is_drawn(new_sheet):
    sheet = new_sheet(900, 600)
    cv2.rectangle(sheet.pixels, (100, 100), (800, 500), 20, 2)
    sheet.line((400, 100), (400, 240), thick=2).line((400, 310), (400, 500), thick=2)
    sheet.line((400, 240), (470, 240)).swing((400, 240), 70, 0)
    sheet.clear(500, 495, 570, 505).line((500, 500), (500, 430)).swing((500, 500), 70, 270)

    assert areas(sheet.picture()) == [
        pytest.approx(300 * 400, rel=0.02),
        pytest.approx(400 * 400, rel=0.02),
    ]


def test_a_turned_sheet_gives_the_same_areas_in_its_own_pixels(two_rooms):
    upright = areas(two_rooms.picture())
    turn = cv2.getRotationMatrix2D((500, 300), 7, 1.0)
    turned = cv2.warpAffine(two_rooms.pixels, turn, (1000, 600), borderValue=255)
    reading = read(Picture(pixels=np.repeat(turned[..., None], 3, axis=2)))

    assert math.degrees(reading.frame.angle) == pytest.approx(-7, abs=0.1)
    assert sorted(room.outline_px.area for room in reading.plan.rooms) == pytest.approx(
        upright, rel=0.01
    )
    corner = turn @ np.array([100, 100, 1])
    left = reading.plan.rooms[0].outline_px
    assert min(math.dist(corner, point) for point in left.exterior.coords) < 3


@pytest.mark.parametrize("quarters", [1, 2, 3])
def test_quarter_turns_change_no_area(two_rooms, quarters):
    turned = np.rot90(two_rooms.picture().pixels, quarters)

    assert areas(Picture(pixels=turned)) == pytest.approx(areas(two_rooms.picture()), rel=0.01)


@pytest.mark.parametrize("factor", [0.6, 2.0, 3.0])
def test_areas_grow_with_the_square_of_the_picture(two_rooms, factor):
    grown = cv2.resize(
        two_rooms.picture().pixels, None, fx=factor, fy=factor, interpolation=cv2.INTER_AREA
    )

    assert areas(Picture(pixels=grown)) == pytest.approx(
        [area * factor**2 for area in areas(two_rooms.picture())], rel=0.015
    )


def test_white_on_black_reads_like_black_on_white(two_rooms):
    negative = Picture(pixels=255 - two_rooms.picture().pixels)

    assert areas(negative) == pytest.approx(areas(two_rooms.picture()), rel=0.01)


def test_uneven_light_and_coloured_floors_change_nothing(two_rooms):
    pixels = two_rooms.picture().pixels.astype(float)
    pixels[100:460, 412:812] *= (0.85, 0.92, 1.0)
    pixels *= np.linspace(0.55, 1.0, 1000)[None, :, None]
    dim = Picture(pixels=pixels.astype(np.uint8))

    assert areas(dim) == pytest.approx(areas(two_rooms.picture()), rel=0.015)


def test_noise_of_a_scan_changes_little(two_rooms):
    noise = np.random.default_rng(5).normal(0, 18, two_rooms.picture().pixels.shape)
    noisy = np.clip(two_rooms.picture().pixels + noise, 0, 255).astype(np.uint8)
    quality = [cv2.IMWRITE_JPEG_QUALITY, 50]
    scan = cv2.imdecode(cv2.imencode(".jpg", noisy, quality)[1], cv2.IMREAD_COLOR)

    assert areas(Picture(pixels=scan)) == pytest.approx(areas(two_rooms.picture()), rel=0.015)


def test_furniture_and_lettering_are_no_walls(two_rooms):
    bare = areas(two_rooms.picture())
    for left in (480, 560, 640):
        cv2.rectangle(two_rooms.pixels, (left, 340), (left + 50, 390), 20, 1)
    two_rooms.word("Bedroom 12 m2", 130, 400, 0.8).line((110, 440), (390, 440))

    assert areas(two_rooms.picture()) == pytest.approx(bare, rel=0.005)


def test_a_thick_column_is_kept_out_of_the_floor(two_rooms):
    two_rooms.wall(600, 250, 660, 310)

    assert areas(two_rooms.picture())[1] == pytest.approx(400 * 360 - 60 * 60, rel=0.01)


def test_a_room_closed_by_a_wide_gap_is_doubted(two_rooms):
    sure = read(two_rooms.picture()).plan
    two_rooms.clear(640, 460, 800, 480)
    plan = read(two_rooms.picture()).plan

    assert sure.doubts == ()
    assert [doubt.says for doubt in plan.doubts] == [
        "Room 2 is closed by a wide gap that may not be a door."
    ]
    assert plan.room("room-2").confidence < sure.room("room-2").confidence


def test_a_coarse_picture_is_said_to_be_coarse(two_rooms):
    small = cv2.resize(two_rooms.pixels, None, fx=0.16, fy=0.16, interpolation=cv2.INTER_AREA)
    picture = Picture(pixels=np.repeat(small[..., None], 3, axis=2))

    assert any("coarse" in doubt.says for doubt in read(picture).plan.doubts)


def blank(new_sheet) -> Picture:
    return new_sheet(900, 700).picture(file="scan.png")


def one_pixel(_new_sheet) -> Picture:
    return Picture(pixels=np.zeros((1, 1, 3), np.uint8))


def text_only(new_sheet) -> Picture:
    sheet = new_sheet(800, 1000)
    for row in range(40, 980, 30):
        sheet.word("The contractor shall clean every room of the house", 40, row, 0.8)
    return sheet.picture()


def photograph(_new_sheet) -> Picture:
    rng = np.random.default_rng(1)
    ground = cv2.GaussianBlur(rng.normal(140, 60, (600, 800, 3)), (0, 0), 4)
    ground = cv2.normalize(ground, None, 60, 220, cv2.NORM_MINMAX)
    cv2.ellipse(ground, (400, 380), (190, 150), 0, 0, 360, (60, 90, 140), -1)
    cv2.circle(ground, (400, 210), 100, (50, 80, 130), -1)
    return Picture(
        pixels=np.clip(ground + rng.normal(0, 12, ground.shape), 0, 255).astype(np.uint8)
    )


def noise(_new_sheet) -> Picture:
    return Picture(pixels=np.random.default_rng(2).integers(0, 256, (500, 700, 3)).astype(np.uint8))


@pytest.mark.parametrize(
    ("draw", "says"),
    [
        (blank, "scan.png: the page is blank; "),
        (one_pixel, "picture: it is only 1 × 1 pixels; "),
        (text_only, "picture: there are hardly any straight strokes on it, as of walls; "),
        (photograph, "picture: it looks like a photograph, not like a drawing; "),
        (noise, "picture: it looks like a photograph, not like a drawing; "),
    ],
)
def test_what_is_no_plan_is_refused_in_one_sentence(new_sheet, draw, says):
    with pytest.raises(NoWalls) as refusal:
        read(draw(new_sheet))

    assert str(refusal.value).startswith(says)
    assert "\n" not in str(refusal.value)


def test_a_table_has_no_rooms(new_sheet):
    sheet = new_sheet(800, 1000)
    for row in range(60, 960, 60):
        sheet.line((50, row), (750, row), thick=2).word("Item 12", 60, row + 40)
    for column in (50, 250, 450, 750):
        sheet.line((column, 60), (column, 900), thick=2)

    with pytest.raises(NoClosedRoom):
        read(sheet.picture())


def test_walls_that_enclose_nothing_are_refused(blank_sheet):
    blank_sheet.wall(100, 100, 800, 120).wall(100, 100, 120, 600)

    with pytest.raises(ReadingError):
        read(blank_sheet.picture())


def test_a_reading_keeps_its_steps_for_showing(two_rooms):
    reading = read(two_rooms.picture())

    assert reading.ink.dark.shape == reading.strokes.walls.shape == reading.faces.label.shape
    assert reading.strokes.thickness == (pytest.approx(12, abs=1), pytest.approx(20, abs=1))
    assert reading.faces.count == 2
    assert reading.frame.zoom == pytest.approx(1.0)


def test_a_picture_of_the_wrong_kind_is_refused(two_rooms):
    with pytest.raises(ValueError, match="uint8"):
        evolve(two_rooms.picture(), pixels=np.zeros((5, 5, 3)))
