"""How fast a wet film dries in the rooms of a job."""

from attrs import frozen

from estimator.measures import CubicMetresPerSquareMetreSecond, checked


@frozen(kw_only=True, field_transformer=checked)
class Drying:
    """Evaporation from a thin film of water; 150 g/m² in an hour is 0.15 mm/h."""

    evaporation: CubicMetresPerSquareMetreSecond
    source: str
    as_of: str
