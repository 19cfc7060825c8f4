"""The sample plans: each a building of Larkfield on one sheet, in one style, with its truth."""

import json
from collections.abc import Callable
from pathlib import Path

import numpy as np
from attrs import frozen
from PIL import Image

from estimator.plan.exchange import plan_to_dict
from estimator.plan.plan import Plan
from estimator.plan.storey import Source
from estimator.synthesis import larkfield
from estimator.synthesis.annotations import (
    Dimensions,
    draw_dimensions,
    draw_north,
    draw_scale_bar,
    draw_title_block,
    label_rooms,
)
from estimator.synthesis.furnishing import furnished
from estimator.synthesis.layouts import Layout
from estimator.synthesis.openings import draw_openings
from estimator.synthesis.paper import Paper, Picture, Pixels
from estimator.synthesis.recipes import RECIPES
from estimator.synthesis.styles import Style, WallManner
from estimator.synthesis.symbols import draw_pieces, draw_stairs
from estimator.synthesis.truth import true_plan
from estimator.synthesis.walls import Frame, draw_walls

_FINE = 2


@frozen(kw_only=True)
class Sample:
    """One sheet: what is drawn, how, how large, and how the picture is kept.

    Parameters
    ----------
    seed
        Decides how the rooms are furnished; None leaves them empty.
    margins_px
        Paper left of, above, right of and below the building.
    cells
        Headings and texts of the title block; none when empty.
    """

    file: str
    layout: Layout
    style: Style
    px_per_m: float
    seed: int | None = None
    margins_px: tuple[int, int, int, int] = (80, 80, 80, 80)
    dimensions: Dimensions | None = None
    cells: tuple[tuple[str, str], ...] = ()
    has_scale_bar: bool = True
    has_north: bool = True

    def frame(self) -> Frame:
        """Return where the building lies on the sheet."""
        low = self.layout.outside().min(axis=0)
        left, top = np.array(self.margins_px[:2]) - low * self.px_per_m
        return Frame(self.px_per_m, float(left), float(top))

    def size_px(self) -> tuple[int, int]:
        """Return the width and height of the sheet."""
        wide, deep = np.ptp(self.layout.outside(), axis=0) * self.px_per_m
        left, top, right, bottom = self.margins_px
        return round(float(wide)) + left + right, round(float(deep)) + top + bottom

    def contents(self) -> Layout:
        """Return the building with its furniture."""
        return self.layout if self.seed is None else furnished(self.layout, self.seed, RECIPES)


def draw_sheet(paper: Paper, sample: Sample) -> Layout:
    """Draw everything on a sample's sheet and return what was drawn."""
    layout, frame, style = sample.contents(), sample.frame(), sample.style
    width, height = sample.size_px()
    draw_walls(paper, layout, frame, style)
    draw_stairs(paper, layout, frame, style)
    draw_pieces(paper, layout, frame, style)
    draw_openings(paper, layout, frame, style)
    label_rooms(paper, layout, frame, style)
    if sample.dimensions:
        draw_dimensions(paper, layout, frame, style, sample.dimensions)
    bottom = height - sample.margins_px[3]
    if sample.has_scale_bar:
        spot = (sample.margins_px[0], bottom + 46)
        draw_scale_bar(paper, frame, style, spot, feet=style.units == "ft")
    if sample.has_north:
        draw_north(paper, style, (width - sample.margins_px[2] - 30, bottom + 56))
    if sample.cells:
        draw_title_block(paper, style, (30, height - 92, width - 30, height - 26), sample.cells)
    return layout


def picture_of(sample: Sample) -> tuple[Picture, Plan]:
    """Return a sample's picture and truth."""
    width, height = sample.size_px()
    paper = Pixels.blank(width, height, sample.style.paper, _FINE)
    layout = draw_sheet(paper, sample)
    source = Source(file=sample.file, width_px=width, height_px=height)
    truth = true_plan(layout, sample.frame().px, source=source, metres_per_px=1 / sample.px_per_m)
    return paper.finished(), truth


def write_sample(sample: Sample, folder: Path) -> None:
    """Write a sample's picture and, beside it, its truth."""
    picture, truth = picture_of(sample)
    Image.fromarray(picture).save(folder / sample.file, optimize=True)
    name = Path(sample.file).stem + ".truth.json"
    text = json.dumps(plan_to_dict(truth), indent=1)
    (folder / name).write_text(text + "\n", encoding="utf-8")


def samples() -> tuple[Sample, ...]:
    """Return every sample plan."""
    return tuple(make() for make in _SHEETS)


def _family_home() -> Sample:
    return Sample(
        file="larkfield-family-home.png",
        layout=larkfield.family_home(),
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
        layout=larkfield.riverside_flat(),
        style=Style(
            name="clean lines",
            inner=WallManner(fill=(255, 255, 255), line_px=2.0),
            units="mm",
            label="name and area",
            font="sans",
            letter_px=16,
        ),
        px_per_m=105,
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
    grey = (120, 124, 130)
    return Sample(
        file="larkfield-town-office.png",
        layout=larkfield.town_office(),
        style=Style(
            name="grey walls",
            inner=WallManner(fill=grey, line=(40, 42, 46), line_px=1.5),
            label="name and area",
            capitals=True,
            letter_px=15,
        ),
        px_per_m=74,
        seed=5,
        margins_px=(130, 130, 90, 200),
        dimensions=Dimensions(mark="tick"),
        cells=(
            ("PREMISES", "Market Square 9, Larkfield"),
            ("DRAWING", "First floor, furniture layout"),
            ("SIZES", "Metres"),
            ("SHEET", "A-102"),
        ),
    )


_SHEETS: tuple[Callable[[], Sample], ...] = (_family_home, _riverside_flat, _town_office)
