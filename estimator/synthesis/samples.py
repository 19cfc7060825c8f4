"""Sample plans: a building drawn on one sheet in one style, kept as a file with its truth."""

import json
from collections.abc import Callable
from pathlib import Path

import numpy as np
from attrs import frozen
from PIL import Image
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from estimator.plan.exchange import plan_to_dict
from estimator.plan.plan import Plan
from estimator.plan.storey import Source
from estimator.synthesis.annotations import (
    Dimensions,
    draw_dimensions,
    draw_heading,
    draw_north,
    draw_scale_bar,
    draw_title_block,
    label_rooms,
)
from estimator.synthesis.degradation import Matrix, moved
from estimator.synthesis.frame import Frame
from estimator.synthesis.furnishing import furnished
from estimator.synthesis.hand import Hand
from estimator.synthesis.layouts import Layout, Ring
from estimator.synthesis.lettering import FONT_FILES
from estimator.synthesis.paper import POINTS_PER_INCH, Page, Paper, Picture, Pixels
from estimator.synthesis.plans import draw_plan
from estimator.synthesis.recipes import RECIPES
from estimator.synthesis.styles import Style
from estimator.synthesis.truth import true_plan

_FINE = 2

Ageing = Callable[[Picture, np.random.Generator], tuple[Picture, Matrix]]
"""What a finished drawing goes through, and where its pixels move to."""


@frozen(kw_only=True)
class Sample:
    """One sheet: what is drawn, how, how large, and how the picture is kept.

    Parameters
    ----------
    seed
        Decides how rooms are furnished, how a hand wavers and how paper ages.
    sheet_px
        Size of the sheet; None when it ends with the margins.
    margins_px
        Paper left of, above, right of and below the building.
    cells
        Headings and texts of the title block; none when empty.
    heading
        Lines over the plan, as an agent's brochure has; none when empty.
    sway_px
        How unsteady the hand is that draws; 0 for a machine.
    px_per_inch
        Resolution that a TIFF states and a PDF page is reckoned in; 0 for other files.
    """

    file: str
    layout: Layout
    style: Style
    px_per_m: float
    seed: int = 0
    is_furnished: bool = True
    sheet_px: tuple[int, int] | None = None
    margins_px: tuple[int, int, int, int] = (80, 80, 80, 80)
    dimensions: Dimensions | None = None
    cells: tuple[tuple[str, str], ...] = ()
    heading: tuple[str, ...] = ()
    has_scale_bar: bool = True
    has_north: bool = True
    sway_px: float = 0.0
    ageing: Ageing | None = None
    px_per_inch: int = 0

    def frame(self) -> Frame:
        """Return where the building lies on the sheet."""
        low = self.layout.outside().min(axis=0)
        left, top = np.array(self.margins_px[:2]) - low * self.px_per_m
        return Frame(self.px_per_m, float(left), float(top))

    def size_px(self) -> tuple[int, int]:
        """Return the width and height of the sheet."""
        if self.sheet_px:
            return self.sheet_px
        wide, deep = np.ptp(self.layout.outside(), axis=0) * self.px_per_m
        left, top, right, bottom = self.margins_px
        return round(float(wide)) + left + right, round(float(deep)) + top + bottom

    def contents(self) -> Layout:
        """Return the building with its furniture."""
        return (
            furnished(self.layout, np.random.default_rng(self.seed), RECIPES)
            if self.is_furnished
            else self.layout
        )


def draw_sheet(paper: Paper, sample: Sample) -> Layout:
    """Draw everything on a sample's sheet and return what was drawn."""
    layout, frame, style = sample.contents(), sample.frame(), sample.style
    width, height = sample.size_px()
    draw_plan(paper, layout, frame, style)
    label_rooms(paper, layout, frame, style)
    if sample.dimensions:
        draw_dimensions(paper, layout, frame, style, sample.dimensions)
    right, bottom = (float(part) for part in frame.px(layout.outside()).max(axis=0))
    if sample.has_scale_bar:
        spot = (sample.margins_px[0], bottom + 46)
        draw_scale_bar(paper, frame, style, spot, feet=style.units == "ft")
    if sample.has_north:
        draw_north(paper, style, (right - 30, bottom + 60))
    if sample.heading:
        draw_heading(paper, style, (width / 2, 46), sample.heading)
    if sample.cells:
        draw_title_block(paper, style, (30, height - 92, width - 30, height - 26), sample.cells)
    return layout


def picture_of(sample: Sample) -> tuple[Picture, Plan]:
    """Return a sample's picture and truth."""
    width, height = sample.size_px()
    rng = np.random.default_rng(sample.seed)
    pixels = Pixels.blank(width, height, sample.style.paper, _FINE)
    paper = Hand(paper=pixels, rng=rng, sway_px=sample.sway_px) if sample.sway_px else pixels
    layout = draw_sheet(paper, sample)
    picture, matrix = pixels.finished(), np.eye(3)
    if sample.ageing:
        picture, matrix = sample.ageing(picture, rng)
    return picture, _truth(sample, layout, matrix)


def _truth(sample: Sample, layout: Layout, matrix: Matrix) -> Plan:
    frame, (width, height) = sample.frame(), sample.size_px()

    def to_px(points: Ring) -> Ring:
        return moved(matrix, frame.px(points))

    zoom = float(np.sqrt(np.linalg.det(matrix[:2, :2])))
    source = Source(file=sample.file, width_px=width, height_px=height)
    return true_plan(layout, to_px, source=source, metres_per_px=1 / (sample.px_per_m * zoom))


def write_sample(sample: Sample, folder: Path) -> None:
    """Write a sample's picture and, beside it, its truth."""
    path = folder / sample.file
    if path.suffix == ".pdf":
        truth = _write_page(sample, path)
    else:
        picture, truth = picture_of(sample)
        _write_picture(Image.fromarray(picture), path, sample.px_per_inch)
    text = json.dumps(plan_to_dict(truth), separators=(",", ":"))
    (folder / f"{path.stem}.truth.json").write_text(text + "\n", encoding="utf-8")


def _write_picture(image: Image.Image, path: Path, px_per_inch: int) -> None:
    match path.suffix:
        case ".tif":
            image.convert("1", dither=Image.Dither.NONE).save(
                path, compression="group4", dpi=(px_per_inch, px_per_inch)
            )
        case ".jpg":
            image.convert("L").save(path, quality=70)
        case ".webp":
            image.save(path, quality=78, method=6)
        case _:
            image.save(path, optimize=True)


def _write_page(sample: Sample, path: Path) -> Plan:
    width, height = sample.size_px()
    unit = POINTS_PER_INCH / sample.px_per_inch
    for file in FONT_FILES.values():
        pdfmetrics.registerFont(TTFont(file.stem, str(file)))
    canvas = Canvas(str(path), pagesize=(width * unit, height * unit), invariant=True)
    canvas.setTitle(sample.layout.title)
    layout = draw_sheet(Page(canvas, height, sample.px_per_inch), sample)
    canvas.showPage()
    canvas.save()
    return _truth(sample, layout, np.eye(3))
