from collections.abc import Callable
from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest
from streamlit.util import calc_hash

APP = Path(__file__).parents[2] / "app.py"


@pytest.fixture(autouse=True)
def own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Keep what the app remembers of its user apart for each test."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    monkeypatch.delenv("DATABASE_URL", raising=False)


@pytest.fixture
def app() -> AppTest:
    """The app as it opens."""
    return AppTest.from_file(str(APP), default_timeout=30).run()


@pytest.fixture
def opened_at() -> Callable[[str], AppTest]:
    """Open the app at a screen; AppTest itself can only switch between pages that are files."""

    def opened(screen: str) -> AppTest:
        app = AppTest.from_file(str(APP), default_timeout=30)
        app._page_hash = calc_hash(screen)
        return app.run()

    return opened
