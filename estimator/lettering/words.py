"""The lines of lettering of a picture: those its file holds as text, or else those seen in it."""

from collections.abc import Iterable

from estimator.lettering.line import Line, around
from estimator.lettering.recognition import recognised
from estimator.plan.plan import Plan
from estimator.reading.picture import Picture, Word

# A text layer with fewer words among the rooms belongs to the frame of a scanned drawing; a plan of
# two rooms may have one in each.
_FEWEST_WORDS = 3
_FEWEST_OF_FEW_ROOMS = 2
# Words of one line are at most so far apart, and off one line by so much, in heights of letters.
_WIDEST_SPACE = 0.9
_OFF_LINE = 0.4


def lines_of(picture: Picture, plan: Plan) -> tuple[Line, ...]:
    """Return every line of lettering, from the file's text where it letters the rooms."""
    if _letters_the_rooms(picture.words, plan):
        return lines_of_words(picture.words)
    return recognised(picture.pixels)


def _letters_the_rooms(words: Iterable[Word], plan: Plan) -> bool:
    bounds = [room.outline_px.bounds for room in plan.rooms if room.outline_px]
    inside = sum(
        any(
            left <= (word.left_px + word.right_px) / 2 <= right
            and top <= (word.top_px + word.bottom_px) / 2 <= bottom
            for left, top, right, bottom in bounds
        )
        for word in words
    )
    return inside >= min(_FEWEST_WORDS, max(_FEWEST_OF_FEW_ROOMS, len(bounds)))


def lines_of_words(words: Iterable[Word]) -> tuple[Line, ...]:
    """Return words of a text layer joined into lines, across and up the page.

    Examples
    --------
    >>> words = (Word(text="Bedroom", left_px=0, top_px=0, right_px=70, bottom_px=10),
    ...          Word(text="2", left_px=76, top_px=0, right_px=82, bottom_px=10))
    >>> [line.text for line in lines_of_words(words)]
    ['Bedroom 2']
    """
    pieces = [
        Line(
            text=word.text,
            box_px=(word.left_px, word.top_px, word.right_px, word.bottom_px),
            is_vertical=_is_tall(word),
        )
        for word in words
    ]
    upright = sorted((piece for piece in pieces if piece.is_vertical), key=lambda line: line.box_px)
    upright.sort(key=lambda piece: -piece.box_px[3])  # words run up the page
    short = [piece for piece in pieces if not piece.is_vertical]
    standing: list[list[Line]] = [[piece] for piece in upright]
    level: list[list[Line]] = []
    for piece in short:
        beside = next(
            (line for line in standing if len(piece.text) <= 2 and _above(line, piece)), None
        )
        if beside is not None:
            beside.append(piece)
        elif level and _follows(level[-1][-1], piece):
            level[-1].append(piece)
        else:
            level.append([piece])
    return tuple(
        Line(
            text=" ".join(piece.text for piece in line),
            box_px=around(line),
            is_vertical=line[0].is_vertical,
        )
        for line in level + standing
    )


def _is_tall(word: Word) -> bool:
    width, height = word.right_px - word.left_px, word.bottom_px - word.top_px
    return len(word.text) > 1 and height > 1.3 * width


def _follows(before: Line, piece: Line) -> bool:
    """Tell whether a word stands behind another in its line."""
    letter = max(before.letter_px, piece.letter_px, 1.0)
    space = piece.box_px[0] - before.box_px[2]
    bottoms = abs(piece.centre_px[1] - before.centre_px[1])
    return -0.2 * letter <= space <= _WIDEST_SPACE * letter and bottoms <= _OFF_LINE * letter


def _above(line: list[Line], piece: Line) -> bool:
    """Tell whether a short word stands at the upper end of a line that runs up the page."""
    last = line[-1]
    letter = max(line[0].letter_px, 1.0)
    space = last.box_px[1] - piece.box_px[3]
    aside = abs(piece.centre_px[0] - line[0].centre_px[0])
    return -0.2 * letter <= space <= _WIDEST_SPACE * letter and aside <= _OFF_LINE * letter
