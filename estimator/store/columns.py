"""Kinds of columns: text in any script, exact amounts."""

from decimal import Decimal
from typing import Any

from sqlalchemy import BigInteger, Dialect, Text
from sqlalchemy.types import TypeDecorator

_DECIMALS = 4


class Words(TypeDecorator[str]):
    """Text as people type it; what no database takes (NUL, halves of characters) is replaced."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: str | None, dialect: Dialect) -> str | None:  # noqa: ARG002
        """Return text that every database takes."""
        return None if value is None else cleaned(value)


class Amount(TypeDecorator[Decimal]):
    """An amount of money, exact and sortable in every database: a count of ten-thousandths."""

    impl = BigInteger
    cache_ok = True

    def process_bind_param(self, value: Decimal | None, dialect: Dialect) -> int | None:  # noqa: ARG002
        """Return the count."""
        return None if value is None else int(value.scaleb(_DECIMALS).to_integral_value())

    def process_result_value(self, value: Any, dialect: Dialect) -> Decimal | None:  # noqa: ARG002
        """Return the amount."""
        return None if value is None else Decimal(value).scaleb(-_DECIMALS)


def cleaned(text: str) -> str:
    r"""Return text with what is no character replaced.

    >>> cleaned("廚房 = 1"), cleaned("a\0b\ud800")
    ('廚房 = 1', 'a�b�')
    """
    whole = text.encode("utf-16", "surrogatepass").decode("utf-16", "replace")
    return whole.replace("\0", "\ufffd")
