"""Every tolerance of the reader, named, with its reason."""

from attrs import frozen


@frozen(kw_only=True)
class Settings:
    """Tolerances of the reader; lengths are relative to the picture or to the wall thickness.

    Parameters
    ----------
    work_least, work_most
        The longer side of the picture the reader works on, in pixels. Below the least a 1 px line
        and a 2 px wall cannot be told apart; above the most nothing is gained but time and memory.
    picture_least
        Pictures with a side shorter than this hold no plan anyone could read.
    skew_least
        Radians; a turn smaller than this moves no edge by a pixel over a room.
    paper_window
        Size of the window in which the paper's brightness is judged, as a share of the longer
        side; wider than any wall, narrower than any room with a coloured floor.
    paper_black
        Whatever is darker than this share of the paper is ink, even where the window sees nothing
        else, as inside a solid block of wall.
    pale_most
        Whatever is darker than this share of the paper may be the filling of a wall.
    paper_white
        Whatever is brighter than this share of the paper is no ink, nor the grey inside of a wall.
    ink_most, straight_ink_least
        A page with more ink than this share of it is a photograph; one with less than that share of
        its ink in straight runs is text or a drawing of something else.
    class_least
        Fewer strokes than this share of all make no class of thickness.
    pen_gap
        Walls are drawn at least this many times as thick as the pen of furniture and figures.
    thinner_wall
        Inner walls are never drawn less than the first share as thick as the next thicker kind, and
        seldom less than the second; where strokes are, both ways are tried.
    faint_least
        A thin stroke is at least this share of full brightness darker than what is around it.
    straight_least, straight_share
        Wall strokes run straight for this share of the longer side. A class of strokes of which
        less than the first share does is letters and furniture; of more than the second, walls.
    piece_least
        A piece of wall shorter than this many wall thicknesses, joined to nothing, is an arrow,
        a letter or a symbol.
    line_most
        Where the thickest walls found are no thicker than this, in pixels, they may be the two
        lines of hollow walls.
    line_contrast
        A wall is outlined when its edge is darker than its middle by this share of full brightness.
    hollow_most, hollow_least, hollow_tries
        Hollow walls are at most this share of the longer side wide, and those of one width together
        at least this many longer sides long; so many of the commonest widths are tried.
    hollow_lines
        A hollow wall with its lines is at least this many lines thick.
    glass_least
        A line inside a wall at least this many wall widths long is the glass of a window.
    one_thickness
        Walls whose thickest are less than so many times as thick as the thinnest are of one kind.
    rooms_enough, rooms_sure
        So many faces that look like rooms, more than do not, end the search among other kinds of
        wall; so many and none that does not, among other thicknesses of solid wall.
    covered_least, doorless_least
        Rooms cover at least the first share of a picture of a plan; one or two without any door,
        the second.
    pier_share
        Unless it fills this share of its box and is as thick as a wall: a pier between windows.
    gap_least, gap_most
        Width of a door, window or passage: at least this many wall thicknesses, at most this share
        of the longer side.
    gaps_most
        No more gaps than this are looked at; only clutter has as many.
    gap_depth_least, gap_depth_most
        A gap is as deep as a wall is thick, within these factors of the thinnest and thickest.
    slant_least, slants_most
        Walls run in a slanted direction when this share of their edges does; that many directions
        are looked along at most.
    line_share
        Ink along this share of a gap's width is a window or a threshold.
    arc_share
        Ink along this share of a quarter circle about a jamb is the swing of a door.
    door_usual
        Width of a door in wall thicknesses where no swing shows one: 0.8 m in a wall of 0.1 m
        (common practice).
    door_within
        Doors are between these many wall thicknesses wide.
    door_spread
        A gap up to this many usual doors wide may still be a door, a double door or a passage;
        a wider one between rooms leaves them one room.
    room_least
        A room is at least this many wall thicknesses across; less is a shaft or the inside of a
        wall.
    room_share_least
        A room covers at least this share of the drawing.
    alcove_most
        A recess less than this many wall thicknesses deep behind a gap that nothing closes belongs
        to the room before it.
    closet_most, closet_ink
        A closet may be closed by no more than a line: its floor is at most this many squares of a
        door's width, and at most this share of it is inked, or it is a bath or a worktop.
    coarse_least, loose_least
        Said as a doubt: half a pixel at the walls is more than this share of a room; more than
        this share of the walls bounds no room.
    column_least
        A block inside a room, at least this many wall thicknesses across, is kept out of its floor.
    wobble
        An outline follows the ink within this share of a wall thickness.
    square_within
        Radians; edges this near to the drawing's axes are drawn along them.
    side_px
        The network is shown pictures with a longer side of this many pixels.
    seed_depth
        Floor deeper than this, from 0 to 1, is the seed of a room.
    plan_least, opened_least
        A picture shows a plan when its floor is on average at least this sure, and at least this
        sure together with the surest door or window of each room.
    opening_least
        A door or window less sure than this is taken for a flaw of the wall.
    enclosed_least, space_share_least
        A room is enclosed by walls, doors and windows along this share of its edge, and is this
        share of the picture.
    """

    work_least: int = 1000
    work_most: int = 1800
    picture_least: int = 40
    skew_least: float = 0.003
    paper_window: float = 0.06
    paper_black: float = 0.3
    pale_most: float = 0.9
    paper_white: float = 0.7
    ink_most: float = 0.25
    straight_ink_least: float = 0.2
    class_least: float = 0.02
    pen_gap: float = 1.3
    thinner_wall: tuple[float, float] = (0.29, 0.45)
    faint_least: float = 0.08
    straight_least: float = 0.05
    straight_share: tuple[float, float] = (0.25, 0.45)
    piece_least: float = 5.0
    line_most: float = 6.0
    line_contrast: float = 0.15
    hollow_most: float = 0.03
    hollow_least: float = 0.5
    hollow_tries: int = 3
    hollow_lines: float = 2.5
    glass_least: float = 1.2
    one_thickness: float = 1.4
    rooms_enough: int = 1
    rooms_sure: int = 6
    covered_least: float = 0.04
    doorless_least: float = 0.05
    pier_share: float = 0.85
    gap_least: float = 1.2
    gap_most: float = 0.25
    gaps_most: int = 300
    gap_depth_least: float = 0.5
    gap_depth_most: float = 1.5
    slant_least: float = 0.02
    slants_most: int = 6
    line_share: float = 0.7
    arc_share: float = 0.7
    door_usual: float = 8.0
    door_within: tuple[float, float] = (3.0, 16.0)
    door_spread: float = 2.3
    room_least: float = 2.0
    room_share_least: float = 0.001
    alcove_most: float = 4.0
    closet_most: float = 3.0
    closet_ink: float = 0.05
    coarse_least: float = 0.03
    loose_least: float = 0.2
    column_least: float = 2.0
    wobble: float = 0.25
    square_within: float = 0.05
    side_px: int = 1024
    seed_depth: float = 0.1
    enclosed_least: float = 0.6
    space_share_least: float = 0.0006
    opening_least: float = 0.3
    plan_least: float = 0.67
    opened_least: float = 0.5
