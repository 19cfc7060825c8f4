"""PDFs drawn for tests."""

import io

import shapely
from reportlab.pdfgen.canvas import Canvas

POINTS = 28.346457  # to a metre at 1:100, 72 points to an inch of 25.4 mm


class DrawnPdf:
    """A PDF in the making, on A4 lying, its sizes given in metres at 1:100 with y downwards."""

    def __init__(self):
        self.buffer = io.BytesIO()
        self.canvas = Canvas(self.buffer, pagesize=(842, 595), invariant=1)

    def begin(self):
        """Begin a drawing on the page."""
        self.canvas.translate(60, 500)
        self.canvas.scale(POINTS, -POINTS)
        self.canvas.setLineWidth(0.02)

    def path(self, shape, *, fill=None, stroke=True):
        path = self.canvas.beginPath()
        for part in shapely.get_parts(shape):
            for ring in (part.exterior, *part.interiors):
                first, *others = list(ring.coords)[:-1]
                path.moveTo(*first)
                for point in others:
                    path.lineTo(*point)
                path.close()
        if fill is not None:
            self.canvas.setFillColorRGB(*fill)
        self.canvas.drawPath(path, stroke=int(stroke), fill=int(fill is not None), fillMode=0)

    def line(self, start, end):
        self.canvas.line(*start, *end)

    def swing(self, hinge, radius, start, extent=90):
        x, y = hinge
        self.canvas.arc(x - radius, y - radius, x + radius, y + radius, start, extent)

    def word(self, text, at):
        self.canvas.saveState()
        self.canvas.translate(*at)
        self.canvas.scale(1 / POINTS, -1 / POINTS)
        self.canvas.drawString(0, 0, text)
        self.canvas.restoreState()

    def end(self):
        """End the page; the next begins without a drawing."""
        self.canvas.showPage()

    def data(self):
        self.canvas.save()
        return self.buffer.getvalue()
