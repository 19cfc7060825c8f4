"""What an app under test has made so far."""

from streamlit.testing.v1 import AppTest

from estimator.quote.quote import Quote
from estimator.web.state import Session


def session_of(app: AppTest) -> Session:
    """Return the session of an app."""
    return app.session_state["session"]


def quote_of(app: AppTest) -> Quote:
    """Return the quote that an app has reckoned."""
    quote = session_of(app).quote
    assert quote is not None
    return quote
