"""Writes overlays of thirty held-out drawings into a folder, to be judged by eye.

Run as ``python tests/benchmarks/overlays.py FOLDER``. One sheet a family shows its ten at a glance,
each with the rooms matched, read and drawn.
"""

import sys
from io import BytesIO
from pathlib import Path

from PIL import Image, ImageDraw
from plan_scores.rooms import Score, of_plan
from plan_scores.supply import held_out

from estimator.documents.overlay import overlay_png
from estimator.errors import ReadingError
from estimator.reading.picture import Picture
from estimator.reading.read import read
from estimator.synthesis.drawn import Drawing

EACH, COLUMNS, SMALL_PX, CAPTION_PX = 10, 4, 620, 18


def overlay(drawing: Drawing) -> tuple[Image.Image, str]:
    """Return a drawing with its rooms as read, and how many of them are right."""
    score = Score()
    try:
        plan = read(Picture(pixels=drawing.pixels)).plan
    except ReadingError as refusal:
        return Image.fromarray(drawing.pixels), str(refusal)
    score.add(of_plan(plan, drawing.instances.shape), drawing.instances)
    says = f"{score.met} right of {score.said} read and {score.there} drawn; {drawing.style}"
    return Image.open(BytesIO(overlay_png(drawing.pixels, plan))), says


def at_a_glance(overlays: list[tuple[Image.Image, str]]) -> Image.Image:
    """Return small overlays side by side, each under its words."""
    rows = -(-len(overlays) // COLUMNS)
    sheet = Image.new("RGB", (COLUMNS * SMALL_PX, rows * (SMALL_PX + CAPTION_PX)), "white")
    for number, (picture, says) in enumerate(overlays):
        left, top = number % COLUMNS * SMALL_PX, number // COLUMNS * (SMALL_PX + CAPTION_PX)
        ImageDraw.Draw(sheet).text((left + 4, top + 3), says, fill="black")
        sheet.paste(picture.resize((SMALL_PX - 6, SMALL_PX - 6)), (left + 3, top + CAPTION_PX))
    return sheet


def main(folder: Path) -> None:
    """Write all overlays and the sheets."""
    folder.mkdir(parents=True, exist_ok=True)
    families: dict[str, list[tuple[Image.Image, str]]] = {}
    for drawing in held_out(EACH):
        made = families.setdefault(drawing.family, [])
        made.append(overlay(drawing))
        made[-1][0].save(folder / f"{drawing.family} {len(made):02d}.png")
    for family, made in families.items():
        at_a_glance(made).save(folder / f"{family}.png")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
