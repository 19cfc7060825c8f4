"""How far film and pace usually stray from the book, over all rooms of a job alike."""

from attrs import frozen

from estimator.measures import Share, checked


@frozen(kw_only=True, field_transformer=checked)
class Spread:
    """One standard deviation of the film laid and of the time taken, as shares of the estimate."""

    film: Share
    pace: Share
    source: str
    as_of: str
