import pytest
from drawn_pdf import DrawnPdf
from shapely.geometry import box


class Pages(DrawnPdf):
    """A PDF of plans and texts, page after page."""

    def plan(self, *words, widths=(4.7, 5.2), lettered=True):
        """Add a page of two rooms 6 m deep with a door between them and one to the street."""
        self.begin()
        left, right = widths
        rooms = box(0.3, 0.3, 0.3 + left, 6.3), box(0.4 + left, 0.3, 0.4 + left + right, 6.3)
        doors = box(0.2 + left, 2, 0.5 + left, 2.9), box(1, 0, 1.9, 0.4)
        walls = box(0, 0, 0.7 + left + right, 6.6)
        for hole in rooms + doors:
            walls -= hole
        self.path(walls, fill=(0.2, 0.2, 0.2), stroke=False)
        self.canvas.setLineWidth(0.01)
        for hinge, turn in (((0.3 + left, 2), 90), ((1, 0.3), 270)):
            self.swing(hinge, 0.9, turn)
        for at in range(4):
            self.line((2, 3 + at / 2), (3, 3 + at / 2))
        names = [("Kitchen", (1, 5)), ("Office", (1 + left, 5))]
        for text, at in names if lettered else ():
            self.word(text, at)
        for row, text in enumerate(words):
            self.word(text, (2, 8 + row))
        self.end()
        return self

    def text(self):
        """Add a page of text."""
        for row in range(30):
            self.canvas.drawString(80, 540 - 16 * row, "The undersigned agree to the terms.")
        self.end()
        return self


@pytest.fixture
def pages():
    return Pages()
