"""The command that opens the app, as a new user runs it."""

import os
import socket
import subprocess
import sys
import time
from urllib.error import URLError
from urllib.request import urlopen

RUN = "from estimator.cli.main import main; main()"


def answers(address: str, seconds: float) -> bool:
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        try:
            with urlopen(address) as answer:
                return answer.status == 200
        except URLError:
            time.sleep(0.2)
    return False


def test_the_app_of_a_new_user_is_served_without_a_question_first(tmp_path):
    with socket.socket() as free:
        free.bind(("localhost", 0))
        port = free.getsockname()[1]
    home = os.environ | {"HOME": str(tmp_path), "XDG_DATA_HOME": str(tmp_path), "BROWSER": "true"}

    with subprocess.Popen(
        [sys.executable, "-c", RUN, "app", "--port", str(port)],
        env=home,
        stdin=subprocess.PIPE,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    ) as app:
        try:
            assert answers(f"http://localhost:{port}/_stcore/health", seconds=60)
        finally:
            app.terminate()
