"""What the estimator remembers of its user from one day to the next."""

import json

from attrs import asdict, frozen

from estimator.documents.paper import Paper
from estimator.quantities.language import Language
from estimator.quantities.shown import Units
from estimator.workflow.files import save
from estimator.workflow.places import user_folder

_FILE = "preferences.json"


@frozen(kw_only=True)
class Preferences:
    """How the user likes to see things, and the papers for clients.

    Parameters
    ----------
    paper
        None for the usual one of the units.
    """

    units: Units = Units.METRIC
    language: Language = Language.EN
    paper: Paper | None = None


def preferences() -> Preferences:
    """Return what was remembered, or the usual where nothing readable was."""
    try:
        found = json.loads((user_folder() / _FILE).read_text())
        return Preferences(
            units=Units(found["units"]),
            language=Language(found.get("language") or Language.EN),
            paper=Paper(found["paper"]) if found.get("paper") else None,
        )
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return Preferences()


def remember(chosen: Preferences) -> None:
    """Keep the preferences for the next day.

    Raises
    ------
    DocumentError
        When they cannot be written.
    """
    save(user_folder() / _FILE, json.dumps(asdict(chosen)))
