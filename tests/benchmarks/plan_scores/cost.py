"""What a reading of 1500 × 1000 pixels costs, measured in processes of their own.

Times are multiples of one look of the network, taken in the same run. A look takes about 0.2 s on
two idle cores, so that the asked 3 s and 0.6 s are 15 and 3 looks.
"""

import json
import resource
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import cv2
import numpy as np
from attrs import frozen
from timing import median_time

from estimator.intake.pictures import open_picture
from estimator.lettering.lettered import lettered, scaled
from estimator.reading.picture import Picture
from estimator.reading.read import read
from estimator.reading.settings import Settings
from estimator.reading.sight.network import look
from estimator.workflow.measuring import standard_book
from estimator.workflow.samples import samples

WIDE, TALL = 1500, 1000
MOST_LOOKS, MOST_LOOKS_BARE, MOST_GIB = 15, 3, 1.0


@frozen(kw_only=True)
class Cost:
    """Times in looks of the network, and the peak of memory."""

    whole: float
    without_lettering: float
    gibibytes: float


def cost() -> Cost:
    """Measure in another process, which holds nothing but a reading."""
    told = subprocess.run(
        [sys.executable, "-W", "ignore", "-m", "plan_scores.cost"],
        cwd=Path(__file__).parents[1],
        check=True,
        capture_output=True,
        text=True,
    )
    return Cost(**json.loads(told.stdout.splitlines()[-1]))


def _picture() -> Picture:
    """Return a sample on a sheet of the size asked."""
    (sample,) = (one for one in samples() if "family-home" in one.picture.stem)
    pixels = np.asarray(open_picture(sample.picture).pixels)
    zoom = min(WIDE / pixels.shape[1], TALL / pixels.shape[0])
    small = cv2.resize(pixels, None, fx=zoom, fy=zoom, interpolation=cv2.INTER_AREA)
    sheet = np.full((TALL, WIDE, 3), 255, np.uint8)
    sheet[: small.shape[0], : small.shape[1]] = small[:TALL, :WIDE]
    return Picture(pixels=sheet)


def _warm_time(run: Callable[[], object], times: int) -> float:
    run()
    return median_time(run, times)


def _measure() -> dict[str, float]:
    picture, uses = _picture(), standard_book().surfaces.uses
    one_look = _warm_time(lambda: look(picture.pixels, Settings().side_px), 5)
    bare = _warm_time(lambda: read(picture), 5)
    whole = _warm_time(lambda: scaled(lettered(read(picture).plan, picture, uses), picture), 2)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 2**20  # Linux tells KiB
    return {"whole": whole / one_look, "without_lettering": bare / one_look, "gibibytes": peak}


if __name__ == "__main__":
    print(json.dumps(_measure()))
