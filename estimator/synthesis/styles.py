"""How a plan is drawn: the hand of one draughtsman, office or listing agent."""

from enum import StrEnum

from attrs import field, frozen

from estimator.synthesis.paper import Colour

BLACK: Colour = (20, 20, 22)
WHITE: Colour = (255, 255, 255)


class DoorManner(StrEnum):
    """How a hinged door is shown."""

    LEAF_AND_ARC = "leaf and arc"
    THIN_LEAF_AND_ARC = "thin leaf and arc"
    BARE_LEAF = "bare leaf"
    HALF_OPEN = "half open"
    AJAR = "ajar"
    DASHED_ARC = "leaf and dashed arc"
    FILLED = "filled"
    GAP = "gap"
    BARE_ARC = "bare arc"
    CLOSED = "closed"
    PANEL = "panel"


class WindowManner(StrEnum):
    """How a window is shown."""

    TWO_LINES = "two lines"
    THREE_LINES = "three lines"
    FOUR_LINES = "four lines"
    BOX = "box"
    BAR = "bar"
    GAP = "gap"
    TINTED = "tinted"
    SILL = "sill"


@frozen(kw_only=True)
class WallManner:
    """How a wall is shown: its fill, the line along its faces, a hatch over the fill.

    A width of 0 draws no line; lengths are in pixels.
    """

    fill: Colour
    line: Colour = BLACK
    line_px: float = 0.0
    hatch: str = ""
    hatch_px: float = 7.0


@frozen(kw_only=True)
class Style:
    """Everything that makes one plan look unlike another; widths are in pixels.

    Parameters
    ----------
    outer
        Manner of the walls around the building; None when they are drawn like the inner ones.
    second_doors, closet_doors
        Manner of every third door, when two hands drew the plan, and of the doors of closets.
    half_open
        How far half open doors stand open, in degrees.
    leaf, arc
        Thickness of a thin leaf in opening lines; where its arc begins and ends, as shares.
    window_reach
        Share of an outer wall's depth, from outside, that windows are drawn in.
    variant
        Which of the ways to draw a kind of furniture.
    has_thresholds
        Whether a line runs across a door's gap along both faces of the wall.
    shaft
        Colour of walled shafts; None draws a cross in them.
    floors
        Colour of a room by its use; ``paper`` where a use is not named.
    slack_px
        How far beyond its faces a wall is rubbed out for an opening.
    textures
        Pattern of a floor by its use: boards, tiles, small tiles, hatch; its lines are the floor's
        colour at a share of its light.
    """

    name: str
    paper: Colour = WHITE
    ink: Colour = BLACK
    inner: WallManner
    outer: WallManner | None = None
    doors: DoorManner = DoorManner.LEAF_AND_ARC
    windows: WindowManner = WindowManner.THREE_LINES
    second_doors: DoorManner | None = None
    closet_doors: DoorManner | None = None
    half_open: float = 50.0
    leaf: float = 1.2
    arc: tuple[float, float] = (0.0, 1.0)
    window_reach: float = 1.0
    opening_line_px: float = 1.5
    has_thresholds: bool = False
    glass: Colour = (200, 222, 240)
    shaft: Colour | None = None
    slack_px: float = 1.0
    floors: dict[str, Colour] = field(factory=dict)
    textures: dict[str, str] = field(factory=dict)
    texture_shade: float = 0.93
    furniture_fill: Colour | None = WHITE
    furniture_fills: dict[str, Colour] = field(factory=dict)
    furniture_line: Colour = (90, 90, 94)
    furniture_line_px: float = 1.0
    font: str = "plain"
    title_font: str = "bold"
    variant: int = 0
    letter_px: float = 17.0
    capitals: bool = False
    label: str = "name and size"
    units: str = "m"

    def floor(self, use: str) -> Colour:
        """Return the colour of a floor."""
        return self.floors.get(use, self.paper)
