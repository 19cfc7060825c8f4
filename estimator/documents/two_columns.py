"""Text in two columns of about equal length, over as many pages as it takes."""

from collections.abc import Iterator, Sequence
from io import BytesIO

from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable, PageBreak

from estimator.documents.paper import Paper, column_width, columns, content_height
from estimator.documents.stationery import height_of

Block = tuple[Flowable, ...]
"""What is not parted, such as a heading and the first sentence below it."""

_LONGEST = 0.4
"""Share of a column that a block may take before its text is parted."""


def two_columns(blocks: Sequence[Block], paper: Paper) -> Iterator[Flowable]:
    """Yield blocks in their order, from the top of a page on."""
    wide, page = column_width(paper), content_height(paper)
    blocks = [part for block in blocks for part in _parted(block, wide, _LONGEST * page)]
    heights = [height_of(block, wide) for block in blocks]
    begun = 0
    while begun < len(blocks):
        middle = _filled(heights, begun, page)
        end = _filled(heights, middle, page)
        if end == len(blocks):
            middle = _balanced(heights, begun)
        left, right = blocks[begun:middle], blocks[middle:end]
        yield columns(_parts(left), _parts(right), paper)
        if end < len(blocks):
            yield PageBreak()
        begun = end


def balanced_height(blocks: Sequence[Block], paper: Paper) -> float:
    """Return how high blocks stand where one page takes them all."""
    heights = [height_of(block, column_width(paper)) for block in blocks]
    middle = _balanced(heights, 0)
    return max(sum(heights[:middle]), sum(heights[middle:]))


def _parted(block: Block, wide: float, most: float) -> Iterator[Block]:
    """Yield a block, its last text parted where it is too long."""
    *before, text = block
    taken = height_of(before, wide)
    while taken + height_of([text], wide) > most:
        pieces = text.splitOn(Canvas(BytesIO()), wide, most - taken)
        if len(pieces) < 2:
            break
        yield (*before, pieces[0])
        before, text, taken = [], pieces[1], 0.0
    yield (*before, text)


def _filled(heights: Sequence[float], begun: int, page: float) -> int:
    """Return where a column ends that takes as much as fits, one block at least."""
    taken, at = 0.0, begun
    while at < len(heights) and (at == begun or taken + heights[at] <= page):
        taken += heights[at]
        at += 1
    return at


def _balanced(heights: Sequence[float], begun: int) -> int:
    """Return where the first of two columns ends so that the longer one is shortest."""
    return min(
        range(begun, len(heights) + 1),
        key=lambda at: max(sum(heights[begun:at]), sum(heights[at:])),
    )


def _parts(blocks: Sequence[Block]) -> list[Flowable]:
    return [part for block in blocks for part in block]
