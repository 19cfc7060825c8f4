"""How long something takes."""

import statistics
import time
from collections.abc import Callable


def median_time(run: Callable[[], object], times: int) -> float:
    """Return the median time of several runs in seconds."""
    taken = []
    for _ in range(times):
        began = time.perf_counter()
        run()
        taken.append(time.perf_counter() - began)
    return statistics.median(taken)
