import socket

import cv2
import numpy as np
import pytest

from estimator.lettering import recognition
from estimator.synthesis.lettering import stamp


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


def lettered(degrees=0, letter=20, *, ink=0, paper=255):
    """Return a room with a name and a size in it, turned by so many degrees against the clock."""
    label = np.zeros((400, 400), np.uint8)
    for row, text in enumerate(("Bedroom 2", "3.45 x 4.20 m")):
        mask = stamp(text, letter, "sans")
        height, width = mask.shape
        top, left = 200 + round(1.5 * row * letter), 200 - width // 2
        label[top : top + height, left : left + width] = mask
    turn = cv2.getRotationMatrix2D((200, 200), degrees, 1.0)
    label = cv2.warpAffine(label, turn, (400, 400), flags=cv2.INTER_CUBIC)
    sheet = np.full((620, 900), float(paper))
    cv2.rectangle(sheet, (30, 30), (870, 590), float(ink), 10)
    part, share = sheet[110:510, 250:650], label / 255
    part[:] = share * ink + (1 - share) * part
    return np.repeat(sheet.astype(np.uint8)[..., None], 3, axis=2)


@pytest.mark.parametrize(
    "seen",
    [
        {"degrees": 35},
        {"letter": 10},
        {"ink": 250, "paper": 25},
    ],
)
def test_lettering_is_read_at_any_angle_small_and_light_on_dark(seen):
    found = recognition.recognised(lettered(**seen))

    texts = {line.text.replace("×", "x").replace(" ", "") for line in found}
    assert {"Bedroom2", "3.45x4.20m"} <= texts
    assert all(0.7 <= line.letter_px / seen.get("letter", 20) <= 2.0 for line in found)
