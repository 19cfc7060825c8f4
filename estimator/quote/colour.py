"""How well colours stand out from each other, by WCAG 2.2 [1]_.

References
----------
.. [1] W3C, Web Content Accessibility Guidelines 2.2, "relative luminance" and "contrast ratio".
"""

from estimator.measures import Ratio, Share


def rgb(colour: str) -> tuple[int, int, int]:
    """Return red, green and blue from 0 to 255.

    >>> rgb("#0f5c5c")
    (15, 92, 92)
    """
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def luminance(colour: str) -> Share:
    """Return the relative luminance of a colour.

    >>> luminance("#000000"), luminance("#ffffff")
    (0.0, 1.0)
    """
    linear = [
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
        for part in (value / 255 for value in rgb(colour))
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> Ratio:
    """Return the contrast of two colours, from 1 to 21.

    >>> round(contrast("#000000", "#ffffff"), 6)
    21.0
    """
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)
