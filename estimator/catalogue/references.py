"""Rows that name other rows: each name must be in the book."""

from collections.abc import Collection, Iterator, Mapping
from typing import Any

Place = tuple[str, str]


def dangling(
    rows: Mapping[str, Mapping[str, Any]], known: Collection[Place]
) -> Iterator[tuple[Place, str]]:
    """Yield the place of every row that names one the book does not have, and a sentence.

    Parameters
    ----------
    known
        The places of all rows, those that could not be made included.
    """
    for place, section, name in _named(rows):
        if (section, name) not in known:
            yield place, f"it names {name}, which is not among the {section}"


def _named(rows: Mapping[str, Mapping[str, Any]]) -> Iterator[tuple[Place, str, str]]:
    """Yield the place of a row, and the section and name of each row it names."""
    for slug, use in rows["uses"].items():
        yield ("uses", slug), "zones", use.zone
        for content in use.contents:
            yield ("uses", slug), "furniture", content.kind
    for slug, kind in rows["furniture"].items():
        if kind.zone is not None:
            yield ("furniture", slug), "zones", kind.zone
    for slug, rule in rows["zoning"].items():
        yield ("zoning", slug), "zones", rule.zone
        for use in rule.uses:
            if use != "*":
                yield ("zoning", slug), "uses", use
    for slug, product in rows["products"].items():
        for label_use in product.uses:
            for zone in label_use.zones:
                yield ("products", slug), "zones", zone
    for slug, precaution in rows["precautions"].items():
        for use in precaution.uses:
            if use != "*":
                yield ("precautions", slug), "uses", use
        for kind in precaution.kinds:
            yield ("precautions", slug), "furniture", kind
    for use in rows["paces"]:
        if use != "*":
            yield ("paces", use), "uses", use
    for product in rows["prices"]:
        yield ("prices", product), "products", product
