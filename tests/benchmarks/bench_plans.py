"""How well plans are read: the network, the strokes, and two textbook ways, in one run.

Drawings come from ``synthesis`` in styles held out from training, each with its exact rooms; the
samples of Larkfield are in ten other hands. Rooms are matched one to one at an intersection over
union of at least 0.5 or 0.75. Textbook ways: threshold, closing and connected components; and the
same with a watershed over the distance transform (Gonzalez & Woods, *Digital Image Processing*).
"""

from collections.abc import Callable, Iterator

import cv2
import numpy as np
import pytest
from attrs import define, field
from numpy.typing import NDArray

from estimator.errors import ReadingError
from estimator.intake.pictures import open_picture
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.reading.picture import Picture
from estimator.reading.read import read
from estimator.reading.sight.classes import DOOR, PASSAGE, WINDOW
from estimator.reading.strokes.reader import read_by_strokes
from estimator.synthesis.drawn import drawn
from estimator.workflow.samples import samples

Mask = NDArray[np.bool_]
Found = list[tuple[Mask, float]]  # each room's pixels and its area in pixels

FIRST, COUNT, SIDE_PX = 3_000_000_000, 60, 896


def of_plan(plan: Plan, shape: tuple[int, int]) -> Found:
    """Return a plan's rooms as masks, with the exact areas of their outlines."""
    found = []
    for room in plan.rooms:
        mask = np.zeros(shape, np.uint8)
        corners = np.round(np.array(room.outline_px.exterior.coords) * 16 - 8).astype(np.int32)
        cv2.fillPoly(mask, [corners], 1, shift=4)
        found.append((mask > 0, room.outline_px.area))
    return found


def by(reader: Callable[[Picture], Plan]) -> Callable[[NDArray[np.uint8]], Found]:
    """Return a way to find rooms with one of our readers."""

    def find(pixels: NDArray[np.uint8]) -> Found:
        try:
            return of_plan(reader(Picture(pixels=pixels)), pixels.shape[:2])
        except ReadingError:
            return []

    return find


def components(pixels: NDArray[np.uint8]) -> Found:
    """Threshold, close, take what is enclosed."""
    grey = cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY)
    _, ink = cv2.threshold(grey, 0, 1, cv2.THRESH_BINARY_INV + cv2.THRESH_OTSU)
    walls = cv2.morphologyEx(ink, cv2.MORPH_OPEN, np.ones((3, 3), np.uint8))
    closed = cv2.morphologyEx(walls, cv2.MORPH_CLOSE, np.ones((25, 25), np.uint8))
    _, label = cv2.connectedComponents(1 - closed, connectivity=4)
    return inside(label)


def watershed(pixels: NDArray[np.uint8]) -> Found:
    """Threshold, and part the paper where the distance from ink has its ridges."""
    grey = cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY)
    _, ink = cv2.threshold(grey, 0, 1, cv2.THRESH_BINARY_INV + cv2.THRESH_OTSU)
    walls = cv2.morphologyEx(ink, cv2.MORPH_OPEN, np.ones((3, 3), np.uint8))
    depth = cv2.distanceTransform(1 - walls, cv2.DIST_L2, 5)
    _, seeds = cv2.connectedComponents((depth > 0.35 * np.quantile(depth, 0.99)).view(np.uint8))
    markers = np.where(walls > 0, seeds.max() + 1, seeds).astype(np.int32)
    cv2.watershed(pixels.copy(), markers)
    markers[(markers < 0) | (markers == seeds.max() + 1)] = 0
    return inside(markers)


def inside(label: NDArray[np.int32]) -> Found:
    """Return the regions that are large enough and do not touch the picture's edge."""
    edge = np.unique(np.concatenate([label[0], label[-1], label[:, 0], label[:, -1]]))
    area = np.bincount(label.ravel())
    keep = (area >= 0.0006 * label.size) & (np.arange(len(area)) > 0)
    keep[edge] = False
    return [(label == number, float(area[number])) for number in np.flatnonzero(keep)]


WAYS: dict[str, Callable[[NDArray[np.uint8]], Found]] = {
    "network": by(lambda picture: read(picture).plan),
    "strokes": by(lambda picture: read_by_strokes(picture).plan),
    "components": components,
    "watershed": watershed,
}


@define
class Score:
    """Counts over several pictures."""

    said: int = 0
    there: int = 0
    met: int = 0
    met_well: int = 0
    errors: list[float] = field(factory=list)

    def add(self, found: Found, truth: Found) -> list[bool]:
        """Match the rooms of one picture; return which of those found are right."""
        pairs = []
        for at, (mask, _) in enumerate(found):
            for number, (there, _) in enumerate(truth):
                both = np.count_nonzero(mask & there)
                if both:
                    either = np.count_nonzero(mask) + np.count_nonzero(there) - both
                    pairs.append((both / either, at, number))
        right, taken = [False] * len(found), set()
        for overlap, at, number in sorted(pairs, reverse=True):
            if overlap < 0.5 or right[at] or number in taken:
                continue
            right[at] = True
            taken.add(number)
            self.met_well += overlap >= 0.75
            self.errors.append(abs(found[at][1] / truth[number][1] - 1))
        self.said += len(found)
        self.there += len(truth)
        self.met += len(taken)
        return right

    def row(self, name: str) -> str:
        """Return the figures as a line of the table."""
        errors = self.errors or [float("nan")]
        within = [sum(error <= most for error in self.errors) / self.there for most in (0.1, 0.05)]
        return (
            f"{name:12s} {2 * self.met / (self.said + self.there):6.3f} "
            f"{2 * self.met_well / (self.said + self.there):6.3f} {np.median(errors):9.3f} "
            f"{np.quantile(errors, 0.9):9.3f} {within[0]:9.2f} {within[1]:9.2f}"
        )


HEAD = "              F1@.5 F1@.75  median err  90 %     all ≤10 % all ≤5 %"


def held_out() -> Iterator[tuple[NDArray[np.uint8], Found]]:
    """Yield drawings in styles that no training showed, with their rooms."""
    for number in range(FIRST, FIRST + COUNT):
        drawing = drawn(number, side_px=SIDE_PX, held_out=True)
        rooms = [drawing.instances == one for one in range(1, int(drawing.instances.max()) + 1)]
        yield drawing.pixels, [(mask, float(mask.sum())) for mask in rooms if mask.any()]


def larkfield() -> Iterator[tuple[NDArray[np.uint8], Found]]:
    """Yield the sample pictures with their rooms."""
    for sample in samples():
        picture = open_picture(sample.picture)
        truth = sample.truth()
        if truth.storeys[0].source.width_px == picture.width_px:
            yield np.asarray(picture.pixels), of_plan(truth, picture.pixels.shape[:2])


@pytest.mark.parametrize("drawings", [held_out, larkfield], ids=lambda one: one.__name__)
def test_rooms_and_their_areas(drawings, capsys):
    scores = {name: Score() for name in WAYS}
    for pixels, truth in drawings():
        for name, find in WAYS.items():
            scores[name].add(find(pixels), truth)
    with capsys.disabled():
        print(f"\n{drawings.__name__}, {scores['network'].there} rooms\n{HEAD}")
        for name, score in scores.items():
            print(score.row(name))
    assert scores["network"].met > max(scores[name].met for name in ("components", "watershed"))


def print_reliability(of_what: str, confidence: NDArray[np.float64], right: Mask) -> None:
    print(f"\nof {of_what} said to be so sure, so many are right")
    for low, high in ((0, 0.6), (0.6, 0.7), (0.7, 0.8), (0.8, 0.9), (0.9, 1.01)):
        among = (confidence >= low) & (confidence < high)
        if among.any():
            print(
                f"  {low:.1f} to {min(high, 1):.1f}: {right[among].mean():.2f} "
                f"of {among.sum()}, mean {confidence[among].mean():.2f}"
            )


def test_confidence_means_something(capsys):
    said: list[tuple[float, bool]] = []
    score = Score()
    for pixels, truth in held_out():
        try:
            plan = read(Picture(pixels=pixels)).plan
        except ReadingError:
            continue
        right = score.add(of_plan(plan, pixels.shape[:2]), truth)
        said += zip((room.confidence for room in plan.rooms), right, strict=True)
    confidence, right = (np.array(column) for column in zip(*said, strict=True))
    with capsys.disabled():
        print_reliability("rooms", confidence, right)
    assert right[confidence >= 0.9].mean() >= 0.9


def is_right(opening: Opening, patches: dict[OpeningKind, NDArray[np.int32]]) -> bool:
    """Tell whether a true opening of the kind lies along most of one read, and it along most."""
    start, end = np.array(opening.start_px), np.array(opening.end_px)
    width = np.hypot(*(end - start))
    patch = patches[opening.kind]
    band = np.zeros(patch.shape, np.uint8)
    cv2.line(band, *(np.round(at).astype(int).tolist() for at in (start, end)), 1, 13)
    met = np.bincount(patch[band > 0], minlength=2)
    met[0] = 0
    if not met.any():
        return False
    rows, columns = np.nonzero(patch == met.argmax())
    along = (np.stack([columns, rows], axis=1) + 0.5 - start) @ (end - start) / width
    low, high = along.min(), along.max()
    return min(width, high) - max(0, low) > 0.5 * (max(width, high) - min(0, low))


def test_confidence_of_openings_means_something(capsys):
    said: list[tuple[float, bool]] = []
    for number in range(FIRST, FIRST + COUNT):
        drawing = drawn(number, side_px=SIDE_PX, held_out=True)
        passage = drawing.contents == PASSAGE
        there = {
            OpeningKind.DOOR: (drawing.labels == DOOR) & ~passage,
            OpeningKind.WINDOW: drawing.labels == WINDOW,
            OpeningKind.PASSAGE: (drawing.labels == DOOR) & passage,
        }
        patches = {
            kind: cv2.connectedComponents(mask.view(np.uint8))[1] for kind, mask in there.items()
        }
        try:
            plan = read(Picture(pixels=drawing.pixels)).plan
        except ReadingError:
            continue
        said += [
            (opening.confidence, is_right(opening, patches))
            for room in plan.rooms
            for opening in room.openings
        ]
    confidence, right = (np.array(column) for column in zip(*said, strict=True))
    with capsys.disabled():
        print_reliability("openings", confidence, right)
    assert right[confidence >= 0.9].mean() >= 0.9
