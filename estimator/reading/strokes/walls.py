"""Wall strokes parted from thinner ones by their thickness and how straight they run."""

from collections.abc import Iterator
from itertools import pairwise

import cv2
import numpy as np
from attrs import frozen

from estimator.reading.arrays import Floats, Labels, Mask, Pixels
from estimator.reading.ink import run_length, straight_runs
from estimator.reading.settings import Settings

STEP = 0.955  # what OpenCV's 3 x 3 distance transform counts for one pixel


@frozen(kw_only=True, eq=False)
class Strokes:
    """Ink parted by thickness.

    Parameters
    ----------
    walls, thin : bool, shape (H, W)
        Wall strokes; every other ink.
    thickness
        The thinnest and thickest usual wall, in pixels.
    line
        Thickness of the line drawn around each wall, whose middle is the wall's face; 0 for walls
        without.
    """

    walls: Mask
    thin: Mask
    thickness: tuple[float, float]
    line: float = 0.0


@frozen(kw_only=True, eq=False)
class Widths:
    """Stroke widths of ink.

    Parameters
    ----------
    depth : float32, shape (H, W)
        Distance of each ink pixel to the nearest paper, in pixels.
    ridge : bool, shape (H, W)
        Pixels in the middle of their stroke.
    """

    depth: Floats
    ridge: Mask

    @classmethod
    def of(cls, ink: Mask) -> "Widths":
        """Measure ink."""
        depth = np.asarray(cv2.distanceTransform(ink.view(np.uint8), cv2.DIST_L2, 3), np.float32)
        depth /= STEP
        ridge = (depth >= cv2.dilate(depth, np.ones((3, 3), np.uint8))) & ink
        return cls(depth=depth, ridge=np.asarray(ridge))

    def within(self, mask: Mask) -> Floats:
        """Return the stroke widths at the ridge pixels within a mask."""
        return np.asarray(2 * self.depth[self.ridge & mask] - 1)


def limits_between(widths: Floats, settings: Settings) -> list[tuple[float, int]]:
    """Return the classes of strokes, the thinnest first: where each begins, and its peak.

    Drawings are made with few pens and few kinds of wall, so that the histogram of stroke widths is
    a row of peaks with next to nothing between them.
    """
    counts, _ = np.histogram(widths, np.arange(-0.5, 62.0))
    enough = settings.class_least * counts.sum()
    peaks: list[int] = []
    for at in range(1, 60):
        if counts[at] < enough or counts[at] < counts[at - 1] or counts[at] <= counts[at + 1]:
            continue
        if peaks and counts[peaks[-1] : at].min() > 0.5 * min(counts[peaks[-1]], counts[at]):
            if counts[at] > counts[peaks[-1]]:
                peaks[-1] = at
            continue
        peaks.append(at)
    return [(0.0, peaks[0])] * bool(peaks) + [
        ((before + after) / 2, after)
        for before, after in pairwise(peaks)
        if after >= settings.pen_gap * before
    ]


def at_least(limit: float, ink: Mask, widths: Widths) -> Mask:
    """Return the strokes at least so many pixels thick."""
    core = widths.depth >= limit / 2 + 0.5
    away = cv2.distanceTransform((~core).view(np.uint8), cv2.DIST_L2, 3)
    return np.asarray((away <= limit / 2 + 1) & ink)


def _joined(walls: Mask, thicker: Mask, least: float) -> tuple[Mask, Mask]:
    """Return the pieces of wall long enough to count, and those that hold some thicker wall."""
    label, _, long = _pieces(walls, least)
    held = np.zeros(len(long), bool)
    held[np.unique(label[thicker])] = True
    return np.asarray(long[label]), np.asarray((held & long)[label])


def _pieces(walls: Mask, least: float) -> tuple[Labels, Labels, Mask]:
    """Return walls in connected pieces: label, OpenCV's statistics, and which are long enough."""
    _, label, stats, _ = cv2.connectedComponentsWithStats(walls.view(np.uint8))
    long = np.maximum(stats[:, cv2.CC_STAT_WIDTH], stats[:, cv2.CC_STAT_HEIGHT]) >= least
    long[0] = False
    return np.asarray(label, np.int32), np.asarray(stats, np.int32), np.asarray(long)


def wall_strokes(ink: Mask, settings: Settings, *, least: float = 0.0) -> Iterator[Strokes]:
    """Part the walls from thinner strokes, in each way that may be right, the thickest first.

    The chief class of walls is the one with the most ink in straight runs. Whatever is thicker is
    wall too, and so is each thinner class that runs as straight and is joined to thicker walls. A
    class that does, but is much thinner, may be inner walls or the lines of windows. There is no
    way when no class of strokes is thicker than the rest, or none as thick as ``least``.
    """
    widths = Widths.of(ink)
    limits = [at for at in limits_between(widths.within(ink), settings) if at[1] >= least]
    pens = 0 if least else 1  # the thinnest strokes of all are a pen's
    if len(limits) > pens:
        classes = [at_least(limit, ink, widths) for limit, _ in limits]
        for chosen in _chosen(classes, [peak for _, peak in limits], pens, settings):
            if strokes := strokes_of(classes[chosen], ink, widths, settings):
                yield strokes


def _chosen(classes: list[Mask], peaks: list[int], pens: int, settings: Settings) -> list[int]:
    """Return which classes of strokes walls may begin at, of classes from the thinnest on.

    The chief class of walls is none of the first ``pens``.
    """
    # every other pixel tells as much
    classes = [np.ascontiguousarray(own[::2, ::2]) for own in classes]
    straight = [straight_runs(own, settings) for own in classes]
    nothing = np.zeros_like(classes[0])
    runs = [
        np.count_nonzero(run & ~thicker)
        for run, thicker in zip(straight, [*classes[1:], nothing], strict=True)
    ]
    at = pens + int(np.argmax(runs[pens:]))
    ways = [at]
    for below in range(at - 1, -1, -1):
        thinner = peaks[below] / peaks[ways[-1]]
        if thinner < settings.thinner_wall[0]:
            break
        walls, thicker = classes[below], classes[ways[-1]]
        own = walls & ~thicker
        long, joined = _joined(walls, thicker, run_length(walls, settings))
        area = np.count_nonzero(own & long)
        if area < settings.class_least * runs[at]:
            continue
        share = np.count_nonzero(straight[below] & own & joined) / area
        if share < settings.straight_share[0]:
            break
        if share >= settings.straight_share[1] and thinner >= settings.thinner_wall[1]:
            ways[-1] = below
        else:
            ways.append(below)
    return ways


def strokes_of(walls: Mask, ink: Mask, widths: Widths, settings: Settings) -> Strokes | None:
    """Drop pieces too short for walls and measure the rest; None when nothing is left."""
    found = widths.within(walls)
    if not len(found):
        return None
    least = float(np.quantile(found, 0.1))
    label, stats, long = _pieces(
        walls, max(settings.piece_least * least, 0.7 * run_length(walls, settings))
    )
    kept = np.asarray(long[label])
    for number in np.flatnonzero(~long[1:]) + 1:
        if _is_pier(stats[number], kept, least, settings):
            long[number] = True
    walls = np.asarray(long[label])
    if not walls.any():
        return None
    least, most = (float(width) for width in np.quantile(widths.within(walls), [0.1, 0.9]))
    return Strokes(walls=walls, thin=ink & ~walls, thickness=(max(1.0, least), max(1.0, most)))


def _is_pier(stats: Labels, walls: Mask, thickness: float, settings: Settings) -> bool:
    """Tell whether a small piece is a block of wall in line with walls that end on both sides."""
    left, top, wide, tall, area = (int(value) for value in stats)
    if area < settings.pier_share * wide * tall or min(wide, tall) < 0.8 * thickness:
        return False
    reach = round(settings.gap_most * max(walls.shape))
    for mask, start, across, length in (
        (walls, left, (top, tall), wide),
        (walls.T, top, (left, wide), tall),
    ):
        before = mask[:, max(0, start - reach) : start][:, ::-1]
        after = mask[:, start + length : start + length + reach]
        if all(_ends_in_line(side, *across) for side in (before, after)):
            return True
    return False


def _ends_in_line(beside: Mask, top: int, tall: int) -> bool:
    """Tell whether the next wall along these rows ends there and is about as thick."""
    band = beside[top : top + tall].mean(axis=0)
    found = np.flatnonzero(band > 0.7)
    if not len(found):
        return False
    column = beside[:, min(int(found[0]) + 2, beside.shape[1] - 1)]
    margin = max(3, tall // 3)
    above, below = (
        column[max(0, top - margin - 2) : max(0, top - margin)],
        column[top + tall + margin : top + tall + margin + 2],
    )
    return not above.any() and not below.any()


def line_around(grey: Pixels, strokes: Strokes, settings: Settings) -> float:
    """Return the thickness of a darker line drawn around grey walls; 0 when there is none.

    Parameters
    ----------
    grey : uint8, shape (H, W)
    """
    depth = Widths.of(strokes.walls).depth
    core = depth > 0.35 * strokes.thickness[0]
    below_rim = (depth >= 1.5) & (depth < 2.5)
    if not core.any() or not below_rim.any():
        return 0.0
    dark, pale = float(np.median(grey[below_rim])), float(np.median(grey[core]))
    if pale - dark < settings.line_contrast * 255:
        return 0.0
    middle = (dark + pale) / 2
    filling = strokes.walls & (grey >= middle) & (depth >= 1.5)
    near = cv2.dilate(filling.view(np.uint8), np.ones((7, 7), np.uint8)) > 0
    lines = int(np.count_nonzero(strokes.walls & (grey < middle) & near))
    rim = int(np.count_nonzero((depth > 0) & (depth < 1.5) & near))
    return min(strokes.thickness[0] / 2, lines / max(1, rim))
