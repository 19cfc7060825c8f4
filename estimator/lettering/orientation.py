"""Which way up a page is: most of its lettering stands upright."""

from collections.abc import Sequence

import numpy as np
from attrs import evolve, frozen

from estimator.lettering.line import Line
from estimator.lettering.recognition import sureness
from estimator.lettering.words import lines_of
from estimator.measures import Share
from estimator.plan.flat import in_picture, laid_flat
from estimator.plan.plan import Plan
from estimator.plan.sheet import Sheet, turned
from estimator.reading.arrays import Pixels
from estimator.reading.picture import Picture
from estimator.reading.sheet.flattening import laid_flat as picture_of

# Shorter lines are as often figures, which are read upside down as well.
_FEWEST_LETTERS = 3
# A page lies on its side when more than this share of its letters run up or down it.
_SIDEWAYS: Share = 0.6
# So many of the longest lines are read both ways up; that way wins by at least this, by letter.
_TRIED = 3
_SURER = 0.15


@frozen(kw_only=True, eq=False)
class Page:
    """A plan in pixels of its page laid flat and upright, and that page.

    Parameters
    ----------
    sheet
        How the page lies in the picture as given; None when it is that picture.
    given
        The picture as given.
    lines
        What is lettered on the page; None when that was not read.
    """

    plan: Plan
    picture: Picture
    sheet: Sheet | None
    given: Picture
    lines: tuple[Line, ...] | None = None

    def in_given(self, plan: Plan) -> Plan:
        """Return a plan of the page in pixels of the picture as given."""
        return plan if self.sheet is None else in_picture(plan, self.sheet, self.given.source)


def flat_page(plan: Plan, picture: Picture) -> Page:
    """Return the page that a picture shows, laid flat; ``plan`` is what was read in it."""
    return _page(plan, picture, plan.storeys[0].sheet)


def upright_page(plan: Plan, picture: Picture) -> Page:
    """Return the same with its lettering read, and turned upright by it."""
    page = _lettered(flat_page(plan, picture))
    if picture.words or not page.lines:
        return page  # pages of text are shown upright
    quarters = quarters_to_upright(page.picture.pixels, page.lines)
    if not quarters:
        return page
    whole = Sheet(from_picture=np.eye(3), width_px=picture.width_px, height_px=picture.height_px)
    return _lettered(_page(plan, picture, turned(page.sheet or whole, quarters)))


def _page(plan: Plan, picture: Picture, sheet: Sheet | None) -> Page:
    if sheet is None:
        return Page(plan=plan, picture=picture, sheet=None, given=picture)
    askew = evolve(plan, storeys=tuple(evolve(storey, sheet=sheet) for storey in plan.storeys))
    flat = picture_of(picture, sheet)
    return Page(plan=laid_flat(askew), picture=flat, sheet=sheet, given=picture)


def _lettered(page: Page) -> Page:
    return evolve(page, lines=lines_of(page.picture, page.plan))


def quarters_to_upright(pixels: Pixels, lines: Sequence[Line]) -> int:
    """Return by how many quarters a page must be turned anticlockwise for its lines to be level."""
    words = [line for line in lines if sum(map(str.isalpha, line.text)) >= _FEWEST_LETTERS]
    on_side = sum(len(line.text) for line in words if line.is_vertical)
    sideways = on_side > _SIDEWAYS * sum(len(line.text) for line in words)
    tried = [line for line in words if line.is_vertical == sideways]
    longest = sorted(tried, key=lambda line: -len(line.text))[:_TRIED]
    quarters = 1 if sideways else 0
    lead = sum(len(line.text) * _lead(pixels, line, quarters) for line in longest)
    letters = sum(len(line.text) for line in longest)
    if sideways:
        return quarters if lead <= 0 else quarters + 2
    return 2 if lead > _SURER * letters else 0


def _lead(pixels: Pixels, line: Line, quarters: int) -> float:
    """Return how much surer a line is read upside down than turned by so many quarters."""
    left, top, right, bottom = (round(side) for side in line.box_px)
    strip = np.rot90(pixels[max(0, top) : bottom + 1, max(0, left) : right + 1], quarters)
    return sureness(np.rot90(strip, 2)) - sureness(strip)
