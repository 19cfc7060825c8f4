"""What fills the paper about a plan: titles, small print, logos, tables, frames."""

import math

import numpy as np
from attrs import frozen

from estimator.synthesis.annotations import draw_north, draw_scale_bar, draw_title_block
from estimator.synthesis.frame import Frame
from estimator.synthesis.lettering import extent
from estimator.synthesis.notes import any_colour
from estimator.synthesis.paper import Paper
from estimator.synthesis.styles import Style
from estimator.synthesis.words import words

Rng = np.random.Generator
Box = tuple[float, float, float, float]
"""Left, top, right, bottom in pixels."""


@frozen(kw_only=True)
class Margins:
    """Letters and rules on the paper that buildings leave free."""

    paper: Paper
    style: Style
    rng: Rng
    side_px: int

    def write(self, free: list[Box]) -> None:
        """Fill free strips of the sheet: titles, small print, logos, tables, north arrows."""
        rng = self.rng
        for box in free:
            left, top, right, bottom = box
            if min(right - left, bottom - top) < 16 or rng.random() < 0.35:
                continue
            choice = int(rng.integers(7))
            middle = ((left + right) / 2, (top + bottom) / 2)
            if choice <= 1:
                self._title(middle, right - left)
            elif choice == 2:
                self._paragraph(box)
            elif choice == 3:
                self._logo(middle, min(right - left, bottom - top))
            elif choice == 4:
                self._table(box)
            elif choice == 5:
                radius = float(np.clip(min(right - left, bottom - top) * 0.3, 6, 30))
                draw_north(self.paper, self.style, middle, radius)
            else:
                frame = Frame(rng.uniform(8, 40), 0, 0)
                draw_scale_bar(self.paper, frame, self.style, (left + 10, middle[1]))
        if rng.random() < 0.15:
            self._frame()
        if rng.random() < 0.05:
            self._markup()

    def _title(self, middle: tuple[float, float], room: float) -> None:
        rng = self.rng
        text = self._one(words().titles)
        letter = float(rng.uniform(10, 26))
        letter = min(
            letter, letter * room / max(1.0, extent(text, letter, self.style.title_font)[0])
        )
        self.paper.write(text, middle, max(7.0, letter), self.style.ink, font=self.style.title_font)

    def _paragraph(self, box: Box) -> None:
        left, top, right, bottom = box
        letter = float(self.rng.uniform(6, 9))
        y = top + letter
        while y < bottom - letter:
            text = self._one(words().small_print)
            width = extent(text, letter, "sans")[0]
            keep = max(4, int(len(text) * min(1.0, (right - left) / width)))
            text = text[:keep]
            spot = (left + extent(text, letter, "sans")[0] / 2 + 2, y)
            self.paper.write(text, spot, letter, self.style.ink, font="sans")
            y += letter * 1.4
            if self.rng.random() < 0.15:
                break

    def _logo(self, middle: tuple[float, float], room: float) -> None:
        rng = self.rng
        radius = min(room * 0.4, rng.uniform(8, 34))
        sides = int(rng.choice([3, 4, 6, 24]))
        turn = np.linspace(0, 2 * math.pi, sides + 1)[:-1] + rng.uniform(0, 1)
        ring = np.array(middle) + np.stack([np.cos(turn), np.sin(turn)], axis=1) * radius
        colour = any_colour(rng)
        if rng.random() < 0.7:
            self.paper.fill(ring, colour)
        self.paper.stroke([ring], colour, float(rng.uniform(1, 4)), closed=True)
        self.paper.write("L", middle, radius, self.style.paper, font="bold")

    def _table(self, box: Box) -> None:
        rng = self.rng
        left, top, right, bottom = box
        if rng.random() < 0.5 and right - left > 150:
            height = min(bottom - top, rng.uniform(18, 40))
            cells = tuple(
                (self._one(words().small_print)[:9].upper(), self._one(words().titles))
                for _ in range(int(rng.integers(2, 5)))
            )
            draw_title_block(self.paper, self.style, (left, bottom - height, right, bottom), cells)
            return
        rows, columns = int(rng.integers(2, 7)), int(rng.integers(1, 5))
        width = min(right - left, rng.uniform(50, 200))
        height = min(bottom - top, rows * rng.uniform(9, 15))
        xs = left + np.linspace(0, width, columns + 1)
        ys = top + np.linspace(0, height, rows + 1)
        lines = [np.array([(x, ys[0]), (x, ys[-1])]) for x in xs]
        lines += [np.array([(xs[0], y), (xs[-1], y)]) for y in ys]
        self.paper.stroke(lines, self.style.ink, 1.0)
        for x in xs[:-1]:
            for y in ys[:-1]:
                spot = (float(x) + width / columns / 2, float(y) + height / rows / 2)
                word = self._one(words().titles).split()[0]
                self.paper.write(word, spot, 6, self.style.ink, font="sans")

    def _frame(self) -> None:
        inset_px = float(self.rng.uniform(2, 14))
        far = self.side_px - 1 - inset_px
        ring = np.array([(inset_px, inset_px), (far, inset_px), (far, far), (inset_px, far)])
        self.paper.stroke([ring], self.style.ink, float(self.rng.choice([1, 1, 2, 3])), closed=True)

    def _markup(self) -> None:
        """Scribble on the print with a coloured pen."""
        colour = any_colour(self.rng)
        for _ in range(int(self.rng.integers(1, 5))):
            start = self.rng.uniform(0.1, 0.9, 2) * self.side_px
            walk = np.cumsum(self.rng.normal(0, 12, (int(self.rng.integers(3, 14)), 2)), axis=0)
            self.paper.stroke([start + walk], colour, float(self.rng.uniform(1, 3)))

    def _one(self, texts: tuple[str, ...]) -> str:
        return texts[int(self.rng.integers(len(texts)))]
