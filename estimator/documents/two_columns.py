"""Text in two columns of about equal length, over as many pages as it takes."""

from collections.abc import Iterator, Sequence

from reportlab.platypus import Flowable, PageBreak

from estimator.documents.paper import Paper, column_width, columns, content_height
from estimator.documents.stationery import height_of

Block = tuple[Flowable, ...]
"""What is not parted, such as a heading and the first sentence below it."""


def two_columns(blocks: Sequence[Block], paper: Paper) -> Iterator[Flowable]:
    """Yield blocks in their order, from the top of a page on."""
    wide, page = column_width(paper), content_height(paper)
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
