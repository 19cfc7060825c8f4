"""The sample plans of Larkfield: eleven sheets, each in the hand of another office."""

import numpy as np

from estimator.synthesis.annotations import Dimensions
from estimator.synthesis.degradation import (
    Matrix,
    on_paper,
    scanned,
    turned,
    two_toned,
    warped,
)
from estimator.synthesis.larkfield import homes, premises
from estimator.synthesis.layouts import area
from estimator.synthesis.paper import Colour, Picture
from estimator.synthesis.samples import Sample
from estimator.synthesis.styles import DoorManner, Style, WallManner, WindowManner

_WHITE = (255, 255, 255)


def sheets() -> tuple[Sample, ...]:
    """Return every sample plan."""
    return (
        _family_home(),
        _riverside_flat(),
        _town_office(),
        _weavers_loft(),
        _mill_cottage(),
        _hill_house(),
        _school_wing(),
        _clinic(),
        _cafe(),
        _bungalow(),
        _nursery(),
    )


def _family_home() -> Sample:
    return Sample(
        file="larkfield-family-home.png",
        layout=homes.family_home(),
        style=Style(name="filled walls", inner=WallManner(fill=(28, 28, 30))),
        px_per_m=100,
        seed=3,
        margins_px=(140, 140, 80, 210),
        dimensions=Dimensions(),
        cells=(
            ("PROJECT", "Alder House, 4 Mill Lane, Larkfield"),
            ("DRAWING", "Ground floor plan"),
            ("SIZES", "Metres, inside walls"),
            ("DRAWN", "Sheet 1 of 1"),
        ),
    )


def _riverside_flat() -> Sample:
    return Sample(
        file="larkfield-riverside-flat.png",
        layout=homes.riverside_flat(),
        style=Style(
            name="clean lines",
            inner=WallManner(fill=_WHITE, line_px=2.0),
            units="mm",
            label="name and area",
            font="sans",
            letter_px=16,
        ),
        px_per_m=105,
        is_furnished=False,
        margins_px=(150, 150, 80, 210),
        dimensions=Dimensions(mark="arrow"),
        cells=(
            ("PROJECT", "Flat 3, Riverside Court, Larkfield"),
            ("DRAWING", "Floor plan as surveyed"),
            ("SIZES", "Millimetres"),
            ("REVISION", "B"),
        ),
    )


def _town_office() -> Sample:
    return Sample(
        file="larkfield-town-office.png",
        layout=premises.town_office(),
        style=Style(
            name="grey walls",
            inner=WallManner(fill=(120, 124, 130), line=(40, 42, 46), line_px=1.5),
            label="name and area",
            capitals=True,
            letter_px=15,
        ),
        px_per_m=74,
        seed=5,
        margins_px=(130, 130, 90, 200),
        dimensions=Dimensions(),
        cells=(
            ("PREMISES", "Market Square 9, Larkfield"),
            ("DRAWING", "First floor, furniture layout"),
            ("SIZES", "Metres"),
            ("SHEET", "A-102"),
        ),
    )


def _weavers_loft() -> Sample:
    wood, tile, stone = (236, 218, 192), (222, 231, 235), (240, 236, 228)
    cream, green, water = (252, 249, 243), (176, 205, 160), (245, 250, 252)
    dry = ("living_room", "dining_room", "bedroom", "closet")
    wet = ("kitchen", "bathroom", "toilet", "utility_room")
    floors: dict[str, Colour] = dict.fromkeys(dry, wood) | dict.fromkeys(wet, tile)
    layout = homes.weavers_loft()
    inside = sum(area(layout.inside(space)) for space in layout.spaces)
    return Sample(
        file="larkfield-weavers-loft.png",
        layout=layout,
        style=Style(
            name="colour brochure",
            ink=(48, 44, 42),
            inner=WallManner(fill=(66, 60, 58)),
            windows=WindowManner.TWO_LINES,
            doors=DoorManner.THIN_LEAF_AND_ARC,
            floors={**floors, "hall": stone},
            textures=dict.fromkeys(dry, "boards") | dict.fromkeys(wet, "tiles"),
            furniture_fill=cream,
            furniture_fills={
                "plant": green,
                "sofa": (214, 222, 226),
                "armchair": (214, 222, 226),
                "bath": water,
                "shower": water,
                "wash_basin": water,
                "toilet": water,
                "dining_table": (214, 186, 150),
                "coffee_table": (214, 186, 150),
                "wardrobe": (228, 214, 196),
            },
            furniture_line=(132, 120, 110),
            letter_px=18,
        ),
        px_per_m=98,
        seed=11,
        margins_px=(110, 150, 110, 130),
        heading=("The Weaver's Loft, Larkfield", f"Second floor, {inside:.0f} m² inside the walls"),
        has_north=False,
    )


def _mill_cottage() -> Sample:
    def ageing(picture: Picture, rng: np.random.Generator) -> tuple[Picture, Matrix]:
        height, width = picture.shape[:2]
        matrix = turned((width, height), 0.9)
        return scanned(warped(picture, matrix, _WHITE), rng), matrix

    return Sample(
        file="larkfield-mill-cottage.jpg",
        layout=homes.mill_cottage(),
        style=Style(
            name="scan, thick stone walls",
            inner=WallManner(fill=(44, 44, 46)),
            font="sans",
            title_font="sans",
            letter_px=17,
            opening_line_px=1.8,
        ),
        px_per_m=88,
        seed=4,
        margins_px=(170, 170, 130, 220),
        dimensions=Dimensions(letter_px=16),
        cells=(
            ("PROPERTY", "Mill Cottage, Larkfield"),
            ("DRAWING", "Ground floor"),
            ("SIZES", "Metres"),
            ("FILE", "217 / 3"),
        ),
        ageing=ageing,
    )


def _hill_house() -> Sample:
    return Sample(
        file="larkfield-hill-house-feet.png",
        layout=homes.hill_house(),
        style=Style(
            name="feet and inches",
            inner=WallManner(fill=(205, 207, 210), line_px=2.0),
            windows=WindowManner.FOUR_LINES,
            doors=DoorManner.THIN_LEAF_AND_ARC,
            units="ft",
            capitals=True,
            font="sans",
            letter_px=14,
        ),
        px_per_m=76,
        seed=8,
        margins_px=(130, 130, 90, 210),
        dimensions=Dimensions(letter_px=13),
        cells=(
            ("RESIDENCE", "Hill House, 12 Orchard Hill, Larkfield"),
            ("DRAWING", "Main floor plan"),
            ("SIZES", "Feet and inches"),
            ("SHEET", "A1"),
        ),
    )


def _school_wing() -> Sample:
    def ageing(picture: Picture, _rng: np.random.Generator) -> tuple[Picture, Matrix]:
        return two_toned(picture), np.eye(3)

    return Sample(
        file="larkfield-school-wing.tif",
        layout=premises.school_wing(),
        style=Style(
            name="two-tone archive copy",
            inner=WallManner(fill=(0, 0, 0)),
            ink=(0, 0, 0),
            furniture_line=(0, 0, 0),
            label="name and area",
            font="sans",
            letter_px=15,
            opening_line_px=1.5,
        ),
        px_per_m=150 / 0.0254 / 100,  # 1:100 at 150 pixels an inch
        seed=2,
        sheet_px=(1754, 1240),  # A4 on its side
        margins_px=(156, 150, 80, 0),
        dimensions=Dimensions(),
        cells=(
            ("SCHOOL", "Larkfield Primary School"),
            ("DRAWING", "East wing, ground floor"),
            ("SCALE", "1:100 on A4"),
            ("SHEET", "4 of 7"),
        ),
        ageing=ageing,
        px_per_inch=150,
    )


def _clinic() -> Sample:
    pale, blue, sand = (232, 243, 240), (228, 236, 248), (248, 243, 230)
    return Sample(
        file="larkfield-willow-lane-clinic.png",
        layout=premises.health_clinic(),
        style=Style(
            name="departments in colour",
            inner=WallManner(fill=(150, 156, 164), line=(60, 66, 74), line_px=1.2),
            outer=WallManner(fill=(40, 46, 56)),
            ink=(30, 36, 46),
            windows=WindowManner.TWO_LINES,
            floors={
                "exam_room": pale,
                "treatment_room": pale,
                "waiting_room": sand,
                "reception": sand,
                "office": blue,
                "staff_room": blue,
            },
            label="name and area",
            letter_px=15,
        ),
        px_per_m=76,
        seed=6,
        margins_px=(130, 130, 80, 200),
        dimensions=Dimensions(mark="arrow"),
        cells=(
            ("PREMISES", "Willow Lane Clinic, Larkfield"),
            ("DRAWING", "Ground floor by department"),
            ("SIZES", "Metres"),
            ("REVISION", "C"),
        ),
    )


def _cafe() -> Sample:
    def ageing(picture: Picture, rng: np.random.Generator) -> tuple[Picture, Matrix]:
        squared = _squared(picture)
        return on_paper(squared, rng, unevenness=0.035, grain=0.01), np.eye(3)

    pen = (38, 46, 92)
    return Sample(
        file="larkfield-corner-cafe-sketch.webp",
        layout=premises.corner_cafe(),
        style=Style(
            name="pen on squared paper",
            ink=pen,
            inner=WallManner(fill=_WHITE, line=pen, line_px=2.4, hatch="diagonal", hatch_px=9),
            furniture_fill=None,
            furniture_line=(70, 78, 120),
            furniture_line_px=1.4,
            opening_line_px=1.8,
            slack_px=5,
            font="pen",
            title_font="pen",
            letter_px=20,
        ),
        px_per_m=96,
        seed=9,
        margins_px=(130, 190, 90, 90),
        dimensions=Dimensions(letter_px=19, line_px=1.5),
        heading=("Corner Cafe, Larkfield",),
        has_scale_bar=False,
        has_north=False,
        sway_px=1.3,
        ageing=ageing,
    )


def _squared(picture: Picture, step: int = 24) -> Picture:
    """Return the picture with the pale squares of a school pad printed under it."""
    pad = np.full_like(picture, 255)
    pad[::step] = pad[:, ::step] = (205, 222, 238)
    return np.minimum(picture, pad)


def _bungalow() -> Sample:
    return Sample(
        file="larkfield-orchard-bungalow.pdf",
        layout=homes.orchard_bungalow(),
        style=Style(
            name="vector sheet",
            inner=WallManner(fill=(70, 72, 76), line=(20, 20, 22), line_px=2.0),
            font="sans",
            letter_px=20,
            label="name, size and area",
            opening_line_px=1.6,
        ),
        px_per_m=150 / 0.0254 / 50,  # 1:50 at 150 pixels an inch
        seed=7,
        sheet_px=(2480, 1754),  # A3 on its side
        margins_px=(510, 240, 60, 0),
        dimensions=Dimensions(letter_px=19, first_px=56, step_px=44),
        cells=(
            ("PROJECT", "Orchard Bungalow, Larkfield"),
            ("DRAWING", "Ground floor plan"),
            ("SCALE", "Scale 1:50 on A3"),
            ("SIZES", "Metres"),
            ("SHEET", "P-01"),
        ),
        px_per_inch=150,
    )


def _nursery() -> Sample:
    return Sample(
        file="larkfield-meadow-nursery.png",
        layout=premises.meadow_nursery(),
        style=Style(
            name="hatched walls, tinted rooms",
            inner=WallManner(fill=_WHITE, line_px=1.6, hatch="diagonal", hatch_px=6),
            floors={"nursery_room": (255, 247, 219), "toilet": (226, 240, 246)},
            label="name and size",
            font="plain",
            letter_px=16,
        ),
        px_per_m=82,
        seed=12,
        margins_px=(130, 130, 90, 200),
        dimensions=Dimensions(),
        cells=(
            ("PREMISES", "Meadow Nursery, Larkfield"),
            ("DRAWING", "Floor plan with furniture"),
            ("SIZES", "Metres"),
            ("SHEET", "2"),
        ),
    )
