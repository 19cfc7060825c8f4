"""Books kept with jobs by earlier versions, completed with what they could not know yet."""

from typing import Any

Data = dict[str, Any]

SECTIONS = ("air", "measuring", "precautions", "working_time")
"""Sections that every book has now and the first ones kept had not."""


def completed(book: Data, usual: Data) -> Data:
    """Return a kept book with the sections it lacks, those of the usual book.

    What may be left out stays out, so that an older job is reckoned as it was where it can be. A
    speed of drying, which is reckoned from the air now, is left to whoever reads the book to
    ignore.

    Parameters
    ----------
    book, usual
        As data, by the fields of the book.
    """
    return {**{section: usual[section] for section in SECTIONS}, **book}
