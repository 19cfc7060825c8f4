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
    paper_white
        Whatever is brighter than this share of the paper is no ink, nor the grey inside of a wall.
    ink_most, straight_ink_least
        A page with more ink than this share of it is a photograph; one with less than that share of
        its ink in straight runs is text or a drawing of something else.
    straight_least
        A run of ink is straight when it is this share of the longer side long.
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
    few_most, few_least
        So few rooms need no opening when their floor is on average at least this sure; among fifty
        pictures that are no plans, those of so few spaces were at most 0.84 sure.
    opening_least
        A door or window less sure than this is taken for a flaw of the wall.
    sure_least, shut_sure_least
        A space is a room only when it is at least this sure, and one that nobody can enter, at
        least the second. Over 165 drawings two of ten spaces less sure than the first were rooms,
        and none of those below the second that nobody can enter.
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
    paper_white: float = 0.7
    ink_most: float = 0.25
    straight_ink_least: float = 0.2
    straight_least: float = 0.05
    column_least: float = 2.0
    wobble: float = 0.25
    square_within: float = 0.05
    side_px: int = 1024
    seed_depth: float = 0.1
    enclosed_least: float = 0.6
    space_share_least: float = 0.0003
    opening_least: float = 0.3
    sure_least: float = 0.55
    shut_sure_least: float = 0.65
    plan_least: float = 0.67
    opened_least: float = 0.6
    few_most: int = 2
    few_least: float = 0.9
