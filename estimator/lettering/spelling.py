"""Letters that look alike, put right where only a number can stand."""

import re
import unicodedata

_SAME = str.maketrans(
    dict.fromkeys("\u2019\u2018\u2032\u02b9\u00b4\u0060\u02bc", "'")
    | dict.fromkeys("\u201d\u201c\u2033\u02ba\u201e\u3003", '"')
    | dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-")
    | dict.fromkeys("\u00d7\u2715\u2a2f\u2217*", " x ")
    | {"\uff0c": ",", "\uff08": "(", "\uff09": ")", "\uff1a": ":", "\u00ba": "\u00b0"}
)
_DIGITS = str.maketrans("OoQDlI|!", "00001111")
# A piece of a word made of digits and letters that look like them, one digit at least.
_NUMBER_LIKE = re.compile(r"(?<![A-Za-z])(?=[OoQDlI|!.,]*[0-9])[0-9OoQDlI|!.,]+(?![A-Za-z]{2})")
# Inches behind feet that are spelled out; a point lost to a stroke.
_FALSE_IN = re.compile(r"(?<=ft )([0-9OoQlI|]{1,2})\s?(?:in|im|ip|ir|1n|m|n)\b")
_FALSE_POINT = re.compile(r"(?<=[0-9])/(?=[0-9]{2}\s?m\b)")
_ELISION = re.compile(r"\b([dl])'(?=\w)")
_FALSE_FEET = re.compile(r"(?<=[0-9])\u00b0\s?(?=[0-9])")
_FALSE_INCHES = re.compile(r"(?<=[0-9])\u00b0")


def flat(text: str) -> str:
    r"""Return a line of lettering in plain letters, one space between words.

    Examples
    --------
    >>> flat("12’6” × 10’0”"), flat("（2.9m）")
    ('12\'6" x 10\'0"', '(2.9m)')
    """
    return " ".join(text.translate(_SAME).split())


def with_digits(text: str) -> str:
    r"""Return it with letters taken for digits put right, and degrees for feet and inches.

    Examples
    --------
    >>> with_digits("1O'6\" x l2'O\""), with_digits("13°6 x 16'2°")
    ('10\'6" x 12\'0"', '13\'6 x 16\'2"')
    """
    text = _FALSE_IN.sub(lambda match: f"{match[1].translate(_DIGITS)}in", text)
    text = _FALSE_POINT.sub(".", text)
    repaired = _NUMBER_LIKE.sub(lambda match: match[0].translate(_DIGITS), text)
    repaired = re.sub(r"(?<=')[OoQD](?=[\"' ]|$)", "0", repaired)
    return _FALSE_INCHES.sub('"', _FALSE_FEET.sub("'", repaired))


def unaccented(text: str) -> str:
    """Return a text in lower case without accents or elisions, as names are compared.

    Examples
    --------
    >>> unaccented("Küche"), unaccented("Salle d’eau")
    ('kuche', 'salle d eau')
    """
    parts = unicodedata.normalize("NFKD", text.casefold().replace("’", "'"))
    plain = "".join(letter for letter in parts if not unicodedata.combining(letter))
    return _ELISION.sub(r"\1 ", plain)
