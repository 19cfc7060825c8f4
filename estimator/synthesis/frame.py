"""Where a plan lies on its sheet: from metres to pixels."""

from attrs import frozen

from estimator.measures import Metres
from estimator.synthesis.layouts import Ring


@frozen
class Frame:
    """Where the plan lies on the paper: pixels a metre and the pixel of the plan's origin."""

    px_per_m: float
    left: float = 0.0
    top: float = 0.0

    def px(self, points: Ring) -> Ring:
        """Return points in metres as pixels."""
        return points * self.px_per_m + (self.left, self.top)

    def spot(self, point: tuple[Metres, Metres]) -> tuple[float, float]:
        """Return one point in metres as pixels."""
        return point[0] * self.px_per_m + self.left, point[1] * self.px_per_m + self.top
