import io

import pytest
from reportlab.pdfgen.canvas import Canvas
from shapely.geometry import box

POINTS = 28.346457  # to a metre at 1:100, 72 points to an inch of 25.4 mm


class Pages:
    """A PDF in the making, on A4 lying, its sizes given in metres at 1:100 with y downwards."""

    def __init__(self):
        self.buffer = io.BytesIO()
        self.canvas = Canvas(self.buffer, pagesize=(842, 595), invariant=1)

    def plan(self, *words, widths=(4.7, 5.2), lettered=True):
        """Add a page of two rooms 6 m deep with a door between them and one to the street."""
        canvas = self.canvas
        canvas.saveState()
        canvas.translate(60, 500)
        canvas.scale(POINTS, -POINTS)
        left, right = widths
        rooms = box(0.3, 0.3, 0.3 + left, 6.3), box(0.4 + left, 0.3, 0.4 + left + right, 6.3)
        doors = box(0.2 + left, 2, 0.5 + left, 2.9), box(1, 0, 1.9, 0.4)
        walls = box(0, 0, 0.7 + left + right, 6.6)
        for hole in rooms + doors:
            walls -= hole
        path = canvas.beginPath()
        for ring in (walls.exterior, *walls.interiors):
            first, *others = list(ring.coords)[:-1]
            path.moveTo(*first)
            for point in others:
                path.lineTo(*point)
            path.close()
        canvas.setFillColorRGB(0.2, 0.2, 0.2)
        canvas.drawPath(path, stroke=0, fill=1, fillMode=0)
        canvas.setLineWidth(0.01)
        for x, y, turn in ((0.3 + left, 2, 90), (1, 0.3, 270)):
            canvas.arc(x - 0.9, y - 0.9, x + 0.9, y + 0.9, turn, 90)
        for at in range(4):
            canvas.line(2, 3 + at / 2, 3, 3 + at / 2)
        names = [("Kitchen", (1, 5)), ("Office", (1 + left, 5))]
        for text, at in names if lettered else ():
            self._word(text, at)
        for row, text in enumerate(words):
            self._word(text, (2, 8 + row))
        canvas.restoreState()
        canvas.showPage()
        return self

    def text(self):
        """Add a page of text."""
        for row in range(30):
            self.canvas.drawString(80, 540 - 16 * row, "The undersigned agree to the terms.")
        self.canvas.showPage()
        return self

    def _word(self, text, at):
        self.canvas.saveState()
        self.canvas.translate(*at)
        self.canvas.scale(1 / POINTS, -1 / POINTS)
        self.canvas.drawString(0, 0, text)
        self.canvas.restoreState()

    def data(self):
        self.canvas.save()
        return self.buffer.getvalue()


@pytest.fixture
def pages():
    return Pages()
