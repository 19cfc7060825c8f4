"""Names in Hebrew and Arabic letters in the order and the shapes they are drawn in.

PDF lays glyphs down from left to right as they come. A line of a name needs little of the Unicode
bidirectional algorithm [1]_: runs that are written from right to left are turned round, numbers in
them are not. Arabic letters take the presentation form that their neighbours ask for [2]_.

References
----------
.. [1] Unicode Standard Annex 9.
.. [2] The Unicode Standard, section 9.2, Arabic; forms from the character database of Python.
"""

import re
import unicodedata
from functools import cache

_RIGHT_TO_LEFT = "\u0590-\u07bf\ufb1d-\ufdff\ufe70-\ufeff"
_ANY = re.compile(f"[{_RIGHT_TO_LEFT}]")
_LEFT_TO_RIGHT = (
    "A-Za-z\u00c0-\u058f\u0900-\u1fff\u3005-\u3007\u3031-\ud7ff\uf900-\ufaff\uff21-\uffdc"
)
_OTHER = re.compile(f"[{_LEFT_TO_RIGHT}]")
_RUN = re.compile(f"[{_RIGHT_TO_LEFT}](?:[^{_LEFT_TO_RIGHT}]*[{_RIGHT_TO_LEFT}])?")
"""From the first such letter to the last before a letter of another script."""

_NUMBER = re.compile(r"\d+(?:[.,:/]\d+)*")
_MIRRORED = str.maketrans("()[]{}<>«»", ")(][}{><»«")
_LIGATED = re.compile("\u0644[\u0622\u0623\u0625\u0627]|.", re.DOTALL)
"""Lam with an alef behind it is one letter."""

_FORM_OF = {
    (True, True): "medial",
    (True, False): "final",
    (False, True): "initial",
    (False, False): "isolated",
}
"""By whether it joins the letter before and the one after."""

_FORMS = range(0xFE80, 0xFEFD)


def drawn(text: str) -> str:
    """Return a line with what is written from right to left in the order it is drawn.

    >>> drawn("Hall 2")
    'Hall 2'
    """
    if not _ANY.search(text):
        return text
    if not _OTHER.search(text):
        return _turned(_shaped(text))
    return _RUN.sub(lambda run: _turned(_shaped(run[0])), text)


def _turned(run: str) -> str:
    turned = run.translate(_MIRRORED)[::-1]
    return _NUMBER.sub(lambda number: number[0][::-1], turned)


def _shaped(run: str) -> str:
    """Return Arabic letters in the forms that their neighbours ask for."""
    forms = _forms()
    letters = _LIGATED.findall(run)
    shaped = []
    for at, letter in enumerate(letters):
        own = forms.get(letter, {})
        before = forms.get(letters[at - 1], {}) if at else {}
        after = forms.get(letters[at + 1], {}) if at + 1 < len(letters) else {}
        joins = "initial" in before and "final" in own, "initial" in own and "final" in after
        shaped.append(own.get(_FORM_OF[joins], letter))
    return "".join(shaped)


@cache
def _forms() -> dict[str, dict[str, str]]:
    """Return the presentation forms of Arabic letters, and of lam with alef, by their names."""
    found: dict[str, dict[str, str]] = {}
    for code in _FORMS:
        form, *codes = unicodedata.decomposition(chr(code)).split()
        letters = "".join(chr(int(one, 16)) for one in codes)
        found.setdefault(letters, {})[form.strip("<>")] = chr(code)
    return found
