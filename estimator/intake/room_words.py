"""Cut typed rooms into entries: how many, called what, how large, how high, with what openings.

Text is read in one pass over its tokens. Lines and semicolons part lines of thought, commas part
pieces of a line; a piece is a room, or says something more about rooms ("2 doors", "ceilings
10 ft").
"""

from collections.abc import Iterator, Sequence

from attrs import evolve, frozen

from estimator.errors import QuantityError
from estimator.measures import SquareMetres
from estimator.plan.beside import Joint
from estimator.quantities.areas import scan_area
from estimator.quantities.lengths import WrittenLength, quoted, scan_length
from estimator.quantities.tokens import Kind, Token, plain, tokens

EXAMPLE = "write it like Kitchen 12' x 14' or Hall 6 x 2.4 m"

_HEIGHT_WORDS = frozenset(
    ["ceiling", "ceilings", "height", "heights", "high", "tall", "h", "headroom"]
)
_FOR_ALL = frozenset(["ceilings", "heights", "all", "everywhere", "throughout"])
_LINKS = frozenset(
    ["of", "at", "is", "are", "about", "approx", "approximately", "all", "everywhere", "throughout"]
)
_HEIGHT_LINKS = _HEIGHT_WORDS | _LINKS | {":", "="}
_MOST_LINKS = 4  # "ceiling height is about"
_LARGE_NUMBERS = frozenset(["dozen", "hundred", "thousand"])
_SIDE_WORDS = frozenset(["wide", "long", "deep", "w", "l", "d", "width", "length", "depth"])
_FILLERS = _LINKS | frozenset(
    ["a", "an", "the", "each", "every", "measuring", "size", "sized", "with", "and", "plus"]
)
_JOINTS = {
    "opens to": Joint.PASSAGE,
    "opens into": Joint.PASSAGE,
    "opens onto": Joint.PASSAGE,
    "open to": Joint.PASSAGE,
    "opening to": Joint.PASSAGE,
    "opening into": Joint.PASSAGE,
    "off": Joint.DOOR,
    "leads to": Joint.DOOR,
    "leads into": Joint.DOOR,
    "leading to": Joint.DOOR,
    "connects to": Joint.DOOR,
    "connected to": Joint.DOOR,
    "door to": Joint.DOOR,
    "through to": Joint.DOOR,
    "next to": Joint.WALL,
    "adjacent to": Joint.WALL,
    "beside": Joint.WALL,
    "alongside": Joint.WALL,
    "adjoining": Joint.WALL,
}
_AND = frozenset(["and", "plus", "&"])
_MOST_JOINED_WORDS = 6
_LINK_FILLERS = frozenset(["of", "the", "a", "an", "its"])
_OPENINGS = {"door": "doors", "doors": "doors", "window": "windows", "windows": "windows"}


@frozen(kw_only=True)
class SaidLink:
    """How a room is joined with another, which is called by its name or use."""

    joint: Joint
    name: str


@frozen(kw_only=True)
class Entry:
    """One piece of the text as it was understood, still without units filled in.

    Parameters
    ----------
    text
        The piece as it stands, to name in a complaint.
    line
        Which line of the text it stands on.
    sides
        Two lengths, or three with the height.
    is_for_all
        Whether its height was said of all ceilings.
    links
        Rooms it is said to be joined with.
    unread
        Words behind the size that mean nothing here.
    """

    text: str
    line: int
    count: int = 1
    name: str = ""
    sides: tuple[WrittenLength, ...] = ()
    area: SquareMetres | None = None
    area_unit: str | None = None
    height: WrittenLength | None = None
    is_for_all: bool = False
    doors: int = 0
    windows: int = 0
    links: tuple[SaidLink, ...] = ()
    unread: str = ""

    @property
    def has_size(self) -> bool:
        """Whether it gives sides or an area."""
        return bool(self.sides) or self.area is not None


def entries(text: str) -> list[Entry]:
    """Return the entries of a text in order; a name is joined to a size behind the next comma.

    Raises
    ------
    QuantityError
        When a piece has a negative or a single side, or two sizes.
    """
    flat = plain(text)
    found: list[Entry] = []
    for line, piece in _pieces(list(tokens(flat))):
        entry = _Piece(piece, flat, line).read()
        last = found[-1] if found else None
        is_name_only = last is not None and bool(last.name) and not last.has_size
        if last and is_name_only and last.line == line and entry.has_size and not entry.name:
            found[-1] = evolve(
                entry,
                count=last.count,
                name=last.name,
                links=(*last.links, *entry.links),
                text=f"{last.text}, {entry.text}",
            )
        else:
            found.append(entry)
    return found


def _pieces(found: Sequence[Token]) -> Iterator[tuple[int, list[Token]]]:
    """Yield each piece with the number of its line; breaks lie between pieces."""
    line, piece = 0, list[Token]()
    for place, token in enumerate(found):
        if token.kind is Kind.BREAK and not _joins_inches(found, place):
            yield from ((line, part) for part in _parted(piece))
            piece = []
            line += token.text != ","
        else:
            piece.append(token)
    yield from ((line, part) for part in _parted(piece))


def _joins_inches(found: Sequence[Token], comma: int) -> bool:
    """Return whether the comma stands inside "12 feet, 6 inches"."""
    around = found[max(comma - 1, 0) : comma + 3]
    kinds = [token.kind for token in around]
    return (
        found[comma].text == ","
        and kinds == [Kind.LENGTH, Kind.BREAK, Kind.NUMBER, Kind.LENGTH]
        and (around[0].unit, around[3].unit) == ("ft", "in")
    )


def _parted(piece: list[Token]) -> Iterator[list[Token]]:
    """Part a piece at each "and" or full stop that has a size on both sides."""
    sizes = [at for at, token in enumerate(piece) if token.kind in (Kind.TIMES, Kind.AREA)]
    start, last_size = 0, max(sizes, default=-1)
    has_size = False
    for at, token in enumerate(piece):
        has_size = has_size or token.kind in (Kind.TIMES, Kind.AREA)
        if has_size and at < last_size and token.text.lower() in ("and", "plus", "&", "."):
            yield piece[start:at]
            start, has_size = at + 1, False
    if piece[start:]:
        yield piece[start:]


class _Piece:
    """The reading of one piece, token by token."""

    def __init__(self, found: list[Token], flat: str, line: int) -> None:
        self.found = found
        self.flat = flat
        self.text = flat[found[0].start : found[-1].end]
        self.entry = Entry(text=self.text, line=line)
        self.before: list[Token] = []
        self.behind: list[Token] = []

    def read(self) -> Entry:
        """Return what the piece says."""
        at = self._count()
        while at < len(self.found):
            at = (
                self._links(at)
                or self._openings(at)
                or self._size(at)
                or self._height(at)
                or self._other(at)
            )
        name, unread = self._words(self.before), self._words(self.behind)
        if not name:
            name, unread = unread, ""
        return evolve(self.entry, name=name, unread=unread)

    def _complain(self, problem: str, remedy: str = EXAMPLE) -> QuantityError:
        return QuantityError(quoted(self.text), problem, remedy)

    def _word(self, at: int) -> str:
        return self.found[at].text.lower() if at < len(self.found) else ""

    def _is_kind(self, at: int, *kinds: Kind) -> bool:
        return at < len(self.found) and self.found[at].kind in kinds

    def _count(self) -> int:
        """Read the number of rooms in front; return where to go on."""
        if not self._is_kind(0, Kind.NUMBER):
            return 0
        second = 2 if self._is_kind(1, Kind.DASH) else 1
        is_long = self._is_kind(second, Kind.NUMBER) or self._word(second) in _LARGE_NUMBERS
        if self.found[0].is_word_number and is_long:
            raise self._complain("so large a number in words is not read", "write it in digits")
        behind = 2 if self._is_kind(1, Kind.TIMES) else 1
        word = self._word(behind)
        if not self._is_kind(behind, Kind.WORD) or word in _OPENINGS or word in _HEIGHT_WORDS:
            return 0
        count = self.found[0].value
        if not (count.is_integer() and count >= 1):
            raise self._complain("so many rooms there cannot be", "give a whole number of rooms")
        self.entry = evolve(self.entry, count=int(count))
        return behind

    def _links(self, at: int) -> int | None:
        """Read "off the hall" or "opens to dining and hall"; return where to go on."""
        joint = self._joint(at)
        if joint is None:
            return None
        names, start = list[str](), at + joint[1]
        while True:
            while self._word(start) in _LINK_FILLERS:
                start += 1
            end = start
            while end < start + _MOST_JOINED_WORDS and self._names(end, start):
                end += 1
            if end > start:
                names.append(self.flat[self.found[start].start : self.found[end - 1].end])
            if end == start or self._word(end) not in _AND or not self._names(end + 1, end + 1):
                break
            start = end + 1
        if not names:
            raise self._complain("it does not say which room", "write it like Bath off the hall")
        said = tuple(SaidLink(joint=joint[0], name=" ".join(name.split())) for name in names)
        self.entry = evolve(self.entry, links=(*self.entry.links, *said))
        return end

    def _joint(self, at: int) -> tuple[Joint, int] | None:
        """Return the joint that is spoken of there, and by how many words."""
        for words in (2, 1):
            joint = _JOINTS.get(" ".join(self._word(at + one) for one in range(words)))
            if joint is not None:
                return joint, words
        return None

    def _names(self, at: int, start: int) -> bool:
        """Return whether a token goes on with the name of a room that begins at another."""
        if self._is_kind(at, Kind.WORD):
            word = self._word(at)
            is_other = word in _AND or word in _HEIGHT_WORDS or word == "with"
            return not is_other and self._joint(at) is None
        measured = self._is_kind(at + 1, Kind.TIMES, Kind.LENGTH, Kind.AREA, Kind.DASH)
        opens = self._word(at + 1) in _OPENINGS
        return at > start and self._is_kind(at, Kind.NUMBER) and not measured and not opens

    def _openings(self, at: int) -> int | None:
        """Read "2 doors"; return where to go on."""
        kind = _OPENINGS.get(self._word(at + 1))
        if kind is None or not self._is_kind(at, Kind.NUMBER):
            return None
        count = self.found[at].value
        if not count.is_integer():
            raise self._complain(f"there is no such number of {kind}", "give a whole number")
        if kind == "doors":
            self.entry = evolve(self.entry, doors=int(count))
        else:
            self.entry = evolve(self.entry, windows=int(count))
        return at + 2

    def _size(self, at: int) -> int | None:
        """Read an area or two or three sides; return where to go on."""
        if area := scan_area(self.found, at):
            unit = self.found[area[1] - 1].unit
            self._refuse_second_size()
            self.entry = evolve(self.entry, area=area[0], area_unit=unit)
            return area[1]
        sides: list[WrittenLength] = []
        end = at
        while side := scan_length(self.found, end):
            sides.append(side)
            end = side.end + (self._word(side.end) in _SIDE_WORDS)
            if not self._is_kind(end, Kind.TIMES):
                break
            end += 1
            self._refuse_negative(end)
        else:
            if sides:
                raise self._complain("one side is missing")
        if len(sides) < 2:
            return None
        if len(sides) > 3:
            raise self._complain("it has more than three sizes")
        if len(sides) == 3 and sides[1].parts[-1].is_implied:
            raise self._complain("it could be two rooms", "put a comma between two rooms")
        self._refuse_negative(at)
        self._refuse_second_size()
        self.entry = evolve(self.entry, sides=tuple(sides))
        return end

    def _refuse_second_size(self) -> None:
        if self.entry.has_size:
            raise self._complain("it has two sizes", "put a comma between two rooms")

    def _refuse_negative(self, at: int) -> None:
        """Refuse a minus sign in front of the number there, or there itself."""
        at = at if self._is_kind(at, Kind.DASH) else at - 1
        if at < 0 or not self._is_kind(at, Kind.DASH) or at + 1 >= len(self.found):
            return
        dash, number = self.found[at], self.found[at + 1]
        is_free = at == 0 or self.found[at - 1].end < dash.start
        if dash.end == number.start and is_free:
            raise self._complain("a size cannot be negative")

    def _height(self, at: int) -> int | None:
        """Read "ceiling 9 ft" or "2.7 m high"; return where to go on."""
        start = at
        while self._word(at) in _HEIGHT_LINKS and at < start + _MOST_LINKS:
            at += 1
        height = scan_length(self.found, at)
        if height is None:
            return None
        end = height.end
        while self._word(end) in _HEIGHT_LINKS and end < height.end + _MOST_LINKS:
            end += 1
        said = {self._word(place) for place in (*range(start, at), *range(height.end, end))}
        if not said & _HEIGHT_WORDS or self._is_kind(end, Kind.TIMES):
            return None
        self._refuse_negative(at)
        if self.entry.height is not None:
            raise self._complain("it has two heights", "give one")
        self.entry = evolve(self.entry, height=height, is_for_all=bool(said & _FOR_ALL))
        return end

    def _other(self, at: int) -> int:
        """Keep a word for the name, refuse a side that stands alone; return where to go on."""
        token = self.found[at]
        side = scan_length(self.found, at)
        if side is not None and side.unit is not None:
            self._refuse_negative(at)
            raise self._complain("it gives one side of a room")
        if token.kind is Kind.TIMES and at and self.found[at - 1].kind is Kind.LENGTH:
            raise self._complain("one side is missing")
        (self.behind if self.entry.has_size else self.before).append(token)
        return at + 1

    def _words(self, found: list[Token]) -> str:
        """Return the tokens as they stand in the text, without fillers and signs at the ends."""
        kept = [at for at, token in enumerate(found) if not self._is_filler(token)]
        found = found[kept[0] : kept[-1] + 1] if kept else []
        if not found:
            return ""
        return " ".join(self.flat[found[0].start : found[-1].end].split())

    @staticmethod
    def _is_filler(token: Token) -> bool:
        return token.kind in (Kind.SIGN, Kind.DASH) or token.text.lower() in _FILLERS
