import socket

import cv2
import numpy as np
import pytest

from estimator.lettering import recognition


@pytest.fixture(scope="module")
def sheet():
    """White paper with a name, a size, and a length that runs up the page."""
    paper = np.full((500, 900, 3), 255, np.uint8)
    for text, row in (("Bedroom", 200), ("3.45 x 4.20 m", 240)):
        cv2.putText(paper, text, (300, row), cv2.FONT_HERSHEY_SIMPLEX, 0.8, (0, 0, 0), 2)
    upright = np.full((300, 60, 3), 255, np.uint8).transpose(1, 0, 2).copy()
    cv2.putText(upright, "5.28 m", (90, 40), cv2.FONT_HERSHEY_SIMPLEX, 0.8, (0, 0, 0), 2)
    paper[100:400, 40:100] = np.rot90(upright)
    return paper


def test_lettering_is_read_without_a_network(sheet, monkeypatch):
    def refuse(*_):
        raise AssertionError("the network was asked for")

    monkeypatch.setattr(socket.socket, "connect", refuse)
    recognition._engine.cache_clear()

    found = {
        line.text.replace("×", "x").replace(" ", ""): line for line in recognition.recognised(sheet)
    }

    assert {"Bedroom", "3.45x4.20m", "5.28m"} <= set(found)
    assert found["5.28m"].is_vertical
    assert not found["Bedroom"].is_vertical
    left, top, right, bottom = found["Bedroom"].box_px
    assert 285 <= left <= 305
    assert 170 <= top <= 185
    assert 400 <= right <= 430
    assert 195 <= bottom <= 215


def test_a_blank_picture_has_no_lettering():
    assert recognition.recognised(np.full((200, 300, 3), 255, np.uint8)) == ()
