"""What the estimator remembers of its user from one day to the next."""

import json

from attrs import asdict, frozen

from estimator.quantities.shown import Units
from estimator.workflow.files import save
from estimator.workflow.places import user_folder

_FILE = "preferences.json"


@frozen(kw_only=True)
class Preferences:
    """How the user likes to see things."""

    units: Units = Units.METRIC


def preferences() -> Preferences:
    """Return what was remembered, or the usual where nothing readable was."""
    try:
        found = json.loads((user_folder() / _FILE).read_text())
        return Preferences(units=Units(found["units"]))
    except (OSError, ValueError, KeyError, TypeError):
        return Preferences()


def remember(chosen: Preferences) -> None:
    """Keep the preferences for the next day.

    Raises
    ------
    DocumentError
        When they cannot be written.
    """
    save(user_folder() / _FILE, json.dumps(asdict(chosen)))
