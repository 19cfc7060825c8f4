"""Tags: what is lettered about one room, its name and its size, gathered from the lines around."""

from collections.abc import Iterable, Sequence

from attrs import frozen

from estimator.lettering.labels import FloorArea, Label, RoomName, RoomSize
from estimator.lettering.line import Box, Line, around
from estimator.lettering.pairs import gap_px
from estimator.lettering.sizes import Size
from estimator.lettering.vocabulary import ANY
from estimator.measures import SquareMetres
from estimator.plan.opening import Point

# Lines of one name stand so close, in heights of their letters.
_SAME_NAME = 1.0
# A size belongs to the name so near, in heights of letters.
_SAME_TAG = 1.5


@frozen(kw_only=True)
class Tag:
    """The name of a room and what is printed beside it.

    Parameters
    ----------
    use
        None when no word of the name is known.
    box_px
        Around all its lines.
    letter_px
        Height of the letters of the name.
    """

    name: str
    use: str | None
    box_px: Box
    letter_px: float
    size: RoomSize | None = None
    area: FloorArea | None = None
    labels: tuple[Label, ...] = ()

    @property
    def place_px(self) -> Point:
        """The middle of its box."""
        left, top, right, bottom = self.box_px
        return (left + right) / 2, (top + bottom) / 2

    @property
    def printed(self) -> Size | None:
        """Its width and depth as they are most likely read."""
        return self.size.sizes.likeliest if self.size else None

    @property
    def floor(self) -> SquareMetres:
        """The printed area, or width times depth; 0 when neither is printed."""
        if self.area is not None:
            return self.area.area
        return self.printed.width * self.printed.depth if self.printed else 0.0


def tags_of(labels: Iterable[Label]) -> tuple[Tag, ...]:
    """Return the tags that labels make, from the top; each size goes to the name nearest to it."""
    labels = tuple(labels)
    blocks = _blocks([label for label in labels if isinstance(label, RoomName)])
    beside: list[list[RoomSize | FloorArea]] = [[] for _ in blocks]
    for label in labels:
        match label:
            case RoomSize() | FloorArea(says_total=False):
                if (at := _nearest(blocks, label.line)) is not None:
                    beside[at].append(label)
    return tuple(_tag(block, near) for block, near in zip(blocks, beside, strict=True))


def _nearest(blocks: Sequence[Sequence[RoomName]], line: Line) -> int | None:
    """Return which of the names stands nearest to a line and near enough."""
    gaps = [
        (min(gap_px(name.line, line) / max(1.0, name.line.letter_px) for name in block), at)
        for at, block in enumerate(blocks)
    ]
    gap, at = min(gaps, default=(_SAME_TAG + 1, 0))
    return at if gap <= _SAME_TAG else None


def _tag(block: Sequence[RoomName], beside: Sequence[RoomSize | FloorArea]) -> Tag:
    sizes = [label for label in beside if isinstance(label, RoomSize)]
    areas = [label for label in beside if isinstance(label, FloorArea)]
    return Tag(
        name=_joined(block),
        use=min((label.use for label in block if label.use), key=ANY.__eq__, default=None),
        box_px=around([label.line for label in (*block, *beside)]),
        letter_px=block[0].line.letter_px,
        size=max(sizes, key=_product, default=None),
        area=areas[0] if areas else None,
        labels=(*block, *beside),
    )


def _product(label: RoomSize) -> SquareMetres:
    return label.sizes.likeliest.width * label.sizes.likeliest.depth


def _blocks(labels: Iterable[RoomName]) -> list[list[RoomName]]:
    """Return the lines of each name together, from the top."""
    blocks: list[list[RoomName]] = []
    for label in sorted(labels, key=lambda label: label.line.centre_px[::-1]):
        block = next((block for block in blocks if _continues(block[-1].line, label.line)), None)
        if block is None:
            blocks.append([label])
        else:
            block.append(label)
    return blocks


def _continues(above: Line, line: Line) -> bool:
    """Tell whether a line goes on with the name in the line above it."""
    letter = min(above.letter_px, line.letter_px)
    upright = not (above.is_vertical or line.is_vertical)
    return upright and _beneath(above, line) and gap_px(above, line) <= _SAME_NAME * letter


def _beneath(above: Line, line: Line) -> bool:
    """Tell whether half of the shorter of two lines lies above or below the other."""
    left, right = max(above.box_px[0], line.box_px[0]), min(above.box_px[2], line.box_px[2])
    shorter = min(above.box_px[2] - above.box_px[0], line.box_px[2] - line.box_px[0])
    return right - left >= 0.5 * shorter


def _joined(block: Sequence[RoomName]) -> str:
    text = ""
    for label in block:
        text += label.text if not text or text.endswith("/") else f" {label.text}"
    return text.rstrip("/ ")
