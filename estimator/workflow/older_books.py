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
    sections = {section: usual[section] for section in SECTIONS}
    return {**sections, **book, "rates": _rates_by_place(book["rates"])}


def _rates_by_place(rates: Data) -> Data:
    """Return rates of one tax for every place as rates of one place, so that it stays charged."""
    if "tax" not in rates:
        return rates
    told = {key: rates[key] for key in ("source", "as_of")}
    tax = {"label": rates["tax_label"], "share": rates["tax"]}
    place = {"slug": "usual", "label": "Usual place", "taxes": [tax], **told}
    return {**rates, "place": "usual", "places": [place]}
