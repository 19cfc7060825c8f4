"""Sixty rooms on a picture of 3000 by 2000 pixels."""

from io import BytesIO

from PIL import Image, ImageDraw

from estimator.plan.geometry import rectangle
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Scale, Source, Storey

ACROSS, DOWN, WALL = 10, 6, 10
WIDE, TALL = 3000, 2000
CELL = (WIDE - 100) // ACROSS, (TALL - 100) // DOWN


def _place(at: int) -> tuple[int, int]:
    return 50 + CELL[0] * (at % ACROSS), 50 + CELL[1] * (at // ACROSS)


def picture() -> bytes:
    drawn = Image.new("RGB", (WIDE, TALL), "white")
    draw = ImageDraw.Draw(drawn)
    for at in range(ACROSS * DOWN):
        x, y = _place(at)
        draw.rectangle((x, y, x + CELL[0], y + CELL[1]), outline="black", width=WALL)
        draw.text((x + 100, y + 140), f"Room {at + 1}", fill="black")
        draw.arc((x + 40, y + 200, x + 120, y + 280), 0, 90, fill="black", width=3)
    written = BytesIO()
    drawn.save(written, "PNG")
    return written.getvalue()


def plan() -> Plan:
    uses = ("office", "meeting_room", "toilet", "kitchen")
    metres = 0.015

    def room(at: int) -> Room:
        x, y = _place(at)
        wide, tall = CELL[0] - WALL, CELL[1] - WALL
        left, top = x + WALL // 2, y + WALL // 2
        return Room(
            id=str(at),
            name=f"Room {at + 1}",
            use=uses[at % len(uses)],
            outline=rectangle(wide * metres, tall * metres, left=left * metres, top=top * metres),
            outline_px=rectangle(wide, tall, left=left, top=top),
        )

    source = Source(file="sixty.png", width_px=WIDE, height_px=TALL)
    scale = Scale(metres_per_px=metres, relative_error=0.01, basis="the drawing")
    rooms = tuple(room(at) for at in range(ACROSS * DOWN))
    return Plan(title="Sixty rooms", storeys=(Storey(source=source, scale=scale),), rooms=rooms)
