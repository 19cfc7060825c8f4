"""The command that opens the app, as a new user runs it."""

import os
import subprocess
import sys

from serving import free_port, wait_for

RUN = "from estimator.cli.main import main; main()"


def test_the_app_of_a_new_user_is_served_without_a_question_first(tmp_path):
    port = free_port()
    home = os.environ | {"HOME": str(tmp_path), "XDG_DATA_HOME": str(tmp_path), "BROWSER": "true"}

    with subprocess.Popen(
        [sys.executable, "-c", RUN, "app", "--port", str(port)],
        env=home,
        stdin=subprocess.PIPE,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    ) as app:
        try:
            wait_for(port)
            assert app.poll() is None
        finally:
            app.terminate()
