"""The script that Streamlit runs for ``estimator app``."""

from estimator.web.main import run

run()
