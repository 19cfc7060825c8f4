"""Money as people read it, by the Unicode Common Locale Data Repository (CLDR) [1]_.

References
----------
.. [1] Unicode Technical Standard 35, part 3; its ``currencySpacing`` parts letters from digits.
"""

import re

from babel import Locale
from babel.numbers import format_currency

from estimator.price.money import Money, coin

_LETTERS_BEFORE_DIGITS = re.compile(r"(?<=[^\W\d])(?=\d)")


def shown_money(money: Money, language: str = "en") -> str:
    """Return an amount with the sign of its currency, no digit of it hidden.

    >>> from decimal import Decimal
    >>> shown_money(Money(Decimal("1234.50"), "USD")), shown_money(Money(Decimal("980"), "JPY"))
    ('$1,234.50', '¥980')

    Parameters
    ----------
    language
        ISO 639 code, such as "fr".
    """
    # CLDR leaves the cents of some currencies out that ISO 4217 has, such as those of the forint.
    _, point, cents = f"{money.amount + 0 * coin(money.currency):f}".partition(".")
    usual = Locale.parse(language).currency_formats["standard"].pattern
    pattern = usual.replace("0.00", "0" + point + "0" * len(cents))
    shown = format_currency(
        money.amount, money.currency, pattern, locale=language, currency_digits=False
    )
    return _LETTERS_BEFORE_DIGITS.sub("\u00a0", shown)


def signed_money(money: Money) -> str:
    """Return what is added or taken off, with its sign.

    >>> from decimal import Decimal
    >>> signed_money(Money(Decimal("-15.69"), "USD")), signed_money(Money(Decimal("3.00"), "USD"))
    ('−$15.69', '+$3.00')
    """
    sign = "+" if money.amount > 0 else "−" if money.amount < 0 else ""
    return f"{sign}{shown_money(Money(abs(money.amount), money.currency))}"
