"""Thai marks in the places that their neighbours leave.

A mark above stands to the left of a tall consonant's stem, and a tone without a vowel below it
comes down [1]_. Fonts have such forms at code points for private use, the same in many fonts since
the first of Windows (from memory; checked against the names of the glyphs in the packaged font).

References
----------
.. [1] The Unicode Standard, section 16.1, Thai.
"""

_TALL = tuple("\u0e1b\u0e1d\u0e1f\u0e2c")
_WITH_FOOT = {"\u0e0d": "\uf70f", "\u0e10": "\uf700"}
"""Consonants that lose their foot to a vowel below."""

_DEEP = tuple("\u0e0e\u0e0f")
"""Consonants that keep it, so that the vowel goes lower."""

_LEFT = {
    "\u0e31": "\uf710",
    "\u0e34": "\uf701",
    "\u0e35": "\uf702",
    "\u0e36": "\uf703",
    "\u0e37": "\uf704",
    "\u0e47": "\uf712",
    "\u0e4d": "\uf711",
}
_BELOW = {"\u0e38": "\uf718", "\u0e39": "\uf719", "\u0e3a": "\uf71a"}
_TONES = "\u0e48\u0e49\u0e4a\u0e4b\u0e4c"
_LOW = dict(zip(_TONES, "\uf70a\uf70b\uf70c\uf70d\uf70e", strict=True))
_LOW_LEFT = dict(zip(_TONES, "\uf705\uf706\uf707\uf708\uf709", strict=True))
_HIGH_LEFT = dict(zip(_TONES, "\uf713\uf714\uf715\uf716\uf717", strict=True))
_AM = "\u0e33"
"""A vowel that begins with a ring above the consonant before it."""

LETTER_OF = {
    form: letter
    for forms in (_WITH_FOOT, _LEFT, _BELOW, _LOW, _LOW_LEFT, _HIGH_LEFT)
    for letter, form in forms.items()
}
"""The letters that forms stand for."""


def formed(run: str) -> str:
    r"""Return Thai letters in the forms that their neighbours ask for.

    >>> ascii(formed("ก่"))
    "'\\u0e01\\uf70a'"
    """
    made: list[str] = []
    consonant, stands_at, vowel = "", 0, False
    for at, letter in enumerate(run):
        if letter in _LEFT:
            vowel = True
            made.append(_LEFT[letter] if consonant in _TALL else letter)
        elif letter in _TONES:
            raised = vowel or run[at + 1 : at + 2] == _AM
            made.append(_tone(letter, tall=consonant in _TALL, raised=raised))
        elif letter in _BELOW:
            if consonant in _WITH_FOOT:
                made[stands_at] = _WITH_FOOT[consonant]
            made.append(_BELOW[letter] if consonant in _DEEP else letter)
        else:
            consonant, stands_at, vowel = letter, at, False
            made.append(letter)
    return "".join(made)


def _tone(tone: str, *, tall: bool, raised: bool) -> str:
    if raised:
        return _HIGH_LEFT[tone] if tall else tone
    return (_LOW_LEFT if tall else _LOW)[tone]
