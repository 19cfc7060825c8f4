"""Money: an exact amount of one currency."""

from decimal import Decimal

from attrs import frozen

from estimator.errors import MixedCurrencies, PriceError
from estimator.price.rounding import Halves, to_step

# ISO 4217, minor units: currencies whose smallest coin is not a hundredth.
_DECIMALS = {"JPY": 0, "KRW": 0, "VND": 0, "CLP": 0, "ISK": 0, "BHD": 3, "KWD": 3, "TND": 3}


@frozen
class Money:
    """An amount of a currency (ISO 4217 code).

    >>> Money(Decimal("10.00"), "USD") + Money(Decimal("2.50"), "USD")
    Money(amount=Decimal('12.50'), currency='USD')
    """

    amount: Decimal
    currency: str

    def __attrs_post_init__(self) -> None:
        if not self.amount.is_finite():
            raise PriceError("amount", f"{self.amount} is no sum of money", "give a number")

    def __add__(self, other: "Money") -> "Money":
        if other.currency != self.currency:
            raise MixedCurrencies(
                "amounts",
                f"{self.currency} and {other.currency} cannot be added",
                "give every rate in one currency",
            )
        return Money(self.amount + other.amount, self.currency)

    def __str__(self) -> str:
        decimals = _DECIMALS.get(self.currency, 2)
        return f"{self.currency} {self.amount:,.{decimals}f}"


def coin(currency: str) -> Decimal:
    """Return the smallest coin of a currency.

    >>> coin("USD"), coin("JPY")
    (Decimal('0.01'), Decimal('1'))
    """
    return Decimal(1).scaleb(-_DECIMALS.get(currency, 2))


def rounded(amount: Decimal, currency: str, halves: Halves = Halves.UP) -> Money:
    """Return the amount rounded to the currency's smallest coin.

    >>> rounded(Decimal("1.005"), "USD").amount
    Decimal('1.01')
    """
    return Money(to_step(amount, coin(currency), halves), currency)
