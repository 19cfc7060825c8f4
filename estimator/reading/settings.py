"""Every tolerance of the reader, named, with its reason."""

from attrs import frozen


@frozen(kw_only=True)
class Settings:
    """Tolerances of the reader."""
