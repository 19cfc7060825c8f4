"""Everything that can go wrong, as one tree.

EstimatorError
  SourceError        a file cannot be opened         UnknownFormat, LockedDocument, EmptyPage
  ReadingError       nothing usable was recognised   NoWalls, NoClosedRoom, ScaleUnknown
  PlanError          the parts contradict            RoomsOverlap, OpeningOffWall
  CatalogueError     data are wrong or lacking       BadEntries, NoSuchEntry
  QuantityError      a measure cannot be read        WrongDimension, MissingUnit
  TreatmentError     the treatment is not allowed
  PriceError         money cannot be reckoned        BadRates, MixedCurrencies
  StoreError         a job cannot be kept or found   NotFound, StaleVersion
  DocumentError      the paper could not be made
  BatchError         many plans cannot be worked out

``str(error)`` is one sentence fit for a client's screen: where, what is wrong, what to do.
"""


class EstimatorError(Exception):
    """Anything the estimator refuses; three parts that read as one sentence.

    Parameters
    ----------
    where
        The file, room, field or entry at fault.
    problem
        What is wrong with it, without a closing full stop.
    remedy
        What the reader can do about it, without a closing full stop.

    Examples
    --------
    >>> str(SourceError("plan.pdf", "the document is empty", "send one with a page"))
    'plan.pdf: the document is empty; send one with a page.'
    """

    def __init__(self, where: str, problem: str, remedy: str) -> None:
        super().__init__(where, problem, remedy)
        self.where = where
        self.problem = problem
        self.remedy = remedy

    def __str__(self) -> str:
        return f"{self.where}: {self.problem}; {self.remedy}."


class SourceError(EstimatorError):
    """A file cannot be opened or holds no picture of a plan."""


class UnknownFormat(SourceError):
    """The file is of a kind the estimator does not read."""


class LockedDocument(SourceError):
    """The document asks for a password."""


class EmptyPage(SourceError):
    """The page or picture shows nothing."""


class ReadingError(EstimatorError):
    """Nothing usable was recognised in a picture."""


class NoWalls(ReadingError):
    """No strokes that could be walls."""


class NoClosedRoom(ReadingError):
    """Walls, but none that enclose a room."""


class ScaleUnknown(ReadingError):
    """The plan has no scale yet, so nothing has a size."""


class PlanError(EstimatorError, ValueError):
    """The parts of a plan contradict each other."""


class RoomsOverlap(PlanError):
    """Two rooms claim the same floor."""


class OpeningOffWall(PlanError):
    """A door, window or passage lies on none of its room's walls."""


class CatalogueError(EstimatorError):
    """Data of the book are wrong or lacking."""


class BadEntries(CatalogueError):
    """A data file holds mistakes; all of them are named at once."""


class NoSuchEntry(CatalogueError, KeyError):
    """The book has no entry of that name."""


class QuantityError(EstimatorError, ValueError):
    """A measure cannot be read or cannot be true."""


class WrongDimension(QuantityError):
    """A measure is of another kind than the one asked for."""


class MissingUnit(QuantityError):
    """A number stands where a measure with a unit was asked for."""


class TreatmentError(EstimatorError):
    """The treatment asked for is not allowed by the label or not possible."""


class PriceError(EstimatorError):
    """A price cannot be reckoned from the rates given."""


class BadRates(PriceError):
    """Rates contradict themselves, perhaps in several ways.

    Parameters
    ----------
    more
        What else is wrong with them, each as a sentence without a full stop.
    """

    def __init__(self, where: str, problem: str, remedy: str, more: tuple[str, ...] = ()) -> None:
        super().__init__(where, "; ".join((problem, *more)), remedy)
        self.each = (f"{where}: {problem}", *more)


class MixedCurrencies(PriceError):
    """Two amounts of different currencies met in one sum."""


class StoreError(EstimatorError):
    """A job cannot be kept or brought back."""


class NotFound(StoreError):
    """No job of that name is kept."""


class StaleVersion(StoreError):
    """The job was changed elsewhere since it was brought back."""


class DocumentError(EstimatorError):
    """A paper could not be made."""


class BatchError(EstimatorError):
    """Many plans cannot be worked out at once, or one of them took its process down."""
