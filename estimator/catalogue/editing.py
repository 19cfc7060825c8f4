"""A firm's rows from what was edited in tables of all rows, its own and the packaged ones."""

from collections.abc import Mapping
from typing import Any

from estimator.catalogue.loader import SINGLE
from estimator.catalogue.spelled import spelled

Rows = Mapping[str, Mapping[str, Any]]


def edited(own: Rows, section: str, rows: Rows, *, source: str, as_of: str) -> dict[str, Any]:
    """Return a firm's rows with a section as it was edited.

    Only what differs from the packaged row is the firm's. A cell left empty takes the packaged
    value, and a packaged row that was taken out comes back as it was.

    Parameters
    ----------
    rows
        All rows of the section by name, as they stand now; those of a single row under "".
    source, as_of
        Where the firm has its figures from, and the month; said by every row that changed.
    """
    packaged, before = _rows(spelled({}), section), _rows(own, section)
    told = {"source": source, "as_of": as_of}
    kept = {}
    for name, row in rows.items():
        usual = packaged.get(name, {})
        # Amounts of another currency are others, even where their figures are the same.
        all_anew = section == "rates" and row.get("currency") != usual.get("currency")
        changed = {
            key: value
            for key, value in row.items()
            if value not in (None, "") and (all_anew or not _same(value, usual.get(key)))
        }
        if changed or name not in packaged:
            former = before.get(name, {})
            said = {key: former[key] for key in told if key in former}
            stays = {key: value for key, value in former.items() if key not in told}
            unseen = {key: value for key, value in stays.items() if key not in row}
            row_now = {**unseen, **changed}
            kept[name] = {**row_now, **(said if said and row_now == stays else told)}
    others = {other: content for other, content in own.items() if other != section}
    made: Any = kept.get("") if section in SINGLE else kept
    return {**others, section: made} if made else others


def _rows(rows: Rows, section: str) -> Rows:
    content = rows.get(section, {})
    return {"": content} if section in SINGLE else content


def _same(one: Any, other: Any) -> bool:
    return one == other or str(one) == str(other)
