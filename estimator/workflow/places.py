"""Where things lie: what ships with the estimator, and what it keeps for its user."""

from importlib.resources import files
from pathlib import Path

import platformdirs


def shipped(inside: str, in_checkout: str) -> Path:
    """Return a shipped file or folder: inside the installed package, or else in the checkout."""
    package = Path(str(files("estimator")))
    return package / inside if (package / inside).exists() else package.parent / in_checkout


def samples_folder() -> Path:
    """Return the folder of sample plans."""
    return shipped("sample_plans", "sample_plans")


def app_script() -> Path:
    """Return the script that Streamlit runs."""
    return shipped("web/app.py", "app.py")


def user_folder() -> Path:
    """Return the folder where the user's own settings are kept, made when it is missing."""
    return Path(platformdirs.user_data_dir("floor-plan-estimator", ensure_exists=True))
