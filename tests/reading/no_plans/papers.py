"""Sheets of paper with words, tables and marks on them, drawn here."""

import numpy as np
from no_plans.page import Page

LINES = (
    "Our spring meeting is held on the second Tuesday",
    "of the month. Please bring the minutes and a list",
    "of all that was lent, lost or mended since autumn.",
    "Tea is served at four. Those who come by train are",
    "met at the station if they let us know in time.",
)


def letter() -> np.ndarray:
    page = Page(560, 700).word("LARKFIELD SOCIETY", 60, 80, 0.8, bold=2)
    for row in range(20):
        if row % 6 != 5:
            page.word(LINES[row % 5], 60, 140 + 26 * row)
    return page.pixels


def newspaper() -> np.ndarray:
    page = (
        Page(640, 700).word("THE LARKFIELD HERALD", 40, 70, 1.3, bold=3).line((30, 90), (610, 90))
    )
    for left in (40, 235, 430):
        page.word("Fair opens", left, 125, 0.7, bold=2)
        for row in range(27):
            page.word(LINES[row % 5][:24], left, 150 + 20 * row, 0.38)
    page.line((222, 100), (222, 690)).line((417, 100), (417, 690))
    return page.box(236, 300, 170, 130, thick=-1, ink=140).pixels


def invoice() -> np.ndarray:
    page = Page(560, 700).word("INVOICE 2041", 40, 70, 1.0, bold=2).box(360, 40, 160, 70)
    page.word("Larkfield Mills", 370, 65).word("12 Weir Lane", 370, 90)
    page.grid(40, 180, 1, 11, 480, 34).line((300, 180), (300, 554)).line((400, 180), (400, 554))
    for row in range(11):
        page.word(f"Article {row + 1}", 50, 203 + 34 * row).word(f"{row + 2}", 330, 203 + 34 * row)
        page.word(f"{17.5 * (row + 3):.2f}", 430, 203 + 34 * row)
    return page.box(300, 570, 220, 40, thick=2).word("Total 1 732.50", 310, 597, 0.6).pixels


def spreadsheet() -> np.ndarray:
    page = (
        Page(700, 520).box(0, 0, 700, 28, thick=-1, ink=225).box(0, 0, 44, 520, thick=-1, ink=225)
    )
    page.grid(44, 28, 8, 22, 82, 22, ink=190)
    for row in range(22):
        page.word(str(row + 1), 8, 45 + 22 * row, 0.4)
        for column in range(7):
            page.word(f"{(row * 37 + column * 91) % 997}", 60 + 82 * column, 44 + 22 * row, 0.4)
    return page.pixels


def form() -> np.ndarray:
    page = Page(560, 700).word("APPLICATION", 40, 60, 0.9, bold=2)
    for row, name in enumerate(("Name", "Street", "Town", "Trade", "Since", "Reason", "Remarks")):
        page.word(name, 40, 115 + 70 * row).box(160, 92 + 70 * row, 360, 40)
    for row in range(3):
        page.box(40, 590 + 30 * row, 18, 18).word("I have read the terms", 70, 605 + 30 * row)
    return page.pixels


def calendar() -> np.ndarray:
    page = Page(680, 560).word("NOVEMBER", 250, 50, 1.1, bold=2).grid(30, 80, 7, 5, 88, 90, thick=2)
    for day in range(30):
        page.word(str(day + 1), 38 + 88 * ((day + 3) % 7), 104 + 90 * ((day + 3) // 7), 0.6)
    return page.word("dentist", 300, 240).word("market", 40, 420).pixels


def crossword() -> np.ndarray:
    page = Page(600, 600).grid(60, 60, 13, 13, 36, 36)
    for cell in np.flatnonzero(np.random.default_rng(4).random(169) < 0.22):
        page.box(60 + 36 * (cell % 13), 60 + 36 * (cell // 13), 36, 36, thick=-1)
    for cell in range(0, 169, 5):
        page.word(str(cell // 5 + 1), 63 + 36 * (cell % 13), 72 + 36 * (cell // 13), 0.28)
    return page.pixels


def number_puzzle() -> np.ndarray:
    page = Page(600, 600).grid(48, 48, 9, 9, 56, 56).grid(48, 48, 3, 3, 168, 168, thick=4)
    for cell in range(0, 81, 3):
        page.word(str(cell * 7 % 9 + 1), 66 + 56 * (cell * 5 % 9), 86 + 56 * (cell // 9), 0.9)
    return page.pixels


def sheet_music() -> np.ndarray:
    page = Page(640, 700).word("Waltz", 280, 60, 1.1, bold=2)
    for stave in range(5):
        top = 110 + 115 * stave
        for row in range(5):
            page.line((40, top + 11 * row), (600, top + 11 * row))
        for x in range(40, 601, 140):
            page.line((x, top), (x, top + 44), thick=2)
        for note in range(15):
            x, y = 70 + 35 * note, top + 5.5 * ((note * 5 + stave * 3) % 9)
            page.disc((x, y), 6, thick=-1).line((x + 6, y), (x + 6, y - 34), thick=2)
    return page.pixels


def bar_codes() -> np.ndarray:
    page, rng = Page(600, 640), np.random.default_rng(5)
    for label in range(6):
        left, top = 40 + 290 * (label % 2), 30 + 205 * (label // 2)
        page.box(left, top, 250, 180)
        x = left + 25.0
        while x < left + 220:
            thick = int(rng.integers(1, 5))
            page.box(x, top + 20, thick, 110, thick=-1, ink=10)
            x += thick + int(rng.integers(2, 6))
        page.word("4 006381 333931", left + 50, top + 158, 0.5)
    return page.pixels


def square_code() -> np.ndarray:
    cells = np.random.default_rng(6).integers(0, 2, (29, 29))
    for top, left in ((0, 0), (0, 22), (22, 0)):
        cells[top : top + 7, left : left + 7] = 1
        cells[top + 1 : top + 6, left + 1 : left + 6] = 0
        cells[top + 2 : top + 5, left + 2 : left + 5] = 1
    black = np.pad(cells, 4).repeat(16, axis=0).repeat(16, axis=1)
    return np.repeat(np.where(black, 0, 255).astype(np.uint8)[..., None], 3, axis=2)


def comic() -> np.ndarray:
    page, top = Page(560, 700), 20
    for tall, widths in ((200, (250, 250)), (230, (160, 340)), (210, (165, 165, 160))):
        left = 20
        for wide in widths:
            page.box(left, top, wide, tall, thick=3)
            page.disc((left + wide / 2, top + tall * 0.6), 36, thick=2)
            page.line((left + wide / 2, top + tall * 0.6 + 36), (left + wide / 2, top + tall - 4))
            page.disc((left + 50, top + 34), 26, thick=2).word("Oh!", left + 36, top + 40)
            left += wide + 12
        top += tall + 12
    return page.pixels


PAPERS = {
    "a letter": letter,
    "a newspaper": newspaper,
    "an invoice": invoice,
    "a spreadsheet": spreadsheet,
    "a form": form,
    "a calendar": calendar,
    "a crossword": crossword,
    "a number puzzle": number_puzzle,
    "sheet music": sheet_music,
    "bar codes": bar_codes,
    "a square code": square_code,
    "a comic": comic,
}
