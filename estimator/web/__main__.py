"""``python -m estimator.web``: serve the browser face; further arguments go to Streamlit."""

import sys

from streamlit.web.cli import main

from estimator.web.theme import options
from estimator.workflow.places import app_script

if __name__ == "__main__":
    sys.argv = ["streamlit", "run", str(app_script()), *options(), *sys.argv[1:]]
    sys.exit(main())
