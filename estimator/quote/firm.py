"""The firm that offers: what its papers say about it, and how they look."""

import hashlib
import re

from attrs import field, frozen

from estimator.errors import CatalogueError
from estimator.measures import Ratio
from estimator.quote.colour import contrast

LEAST_CONTRAST: Ratio = 4.5
"""Of text on white paper (WCAG 2.2, success criterion 1.4.3)."""

_COLOUR = re.compile(r"#[0-9a-f]{6}")


def _logo_digest(logo: bytes | None) -> str:
    return "None" if logo is None else hashlib.sha256(logo).hexdigest()


@frozen(kw_only=True)
class BusinessTerms:
    """The firm's terms of business, sentence by sentence, in each language it offers in."""

    en: tuple[str, ...] = ()
    fr: tuple[str, ...] = ()
    es: tuple[str, ...] = ()

    def said(self, language: str) -> tuple[str, ...]:
        """Return the terms in a language, or those in English where it has none."""
        found: tuple[str, ...] = getattr(self, language, ())
        return found or self.en


@frozen(kw_only=True)
class Firm:
    """A firm as its papers show it; one without a name leaves papers without a letterhead.

    Parameters
    ----------
    contact
        Telephone, mail, site on the web: a line each.
    registration
        What the law asks a firm to say of itself, such as its licence or tax number.
    logo
        The picture as a PNG or JPEG file.
    ink, accent
        Colours of text and of headings, as #rrggbb; both must be legible on white.

    Raises
    ------
    CatalogueError
        When a colour is none or too light to be read.
    """

    name: str = ""
    address: tuple[str, ...] = ()
    contact: tuple[str, ...] = ()
    registration: str = ""
    logo: bytes | None = field(default=None, repr=_logo_digest)
    ink: str = "#1f2a37"
    accent: str = "#0f5c5c"
    terms: BusinessTerms = BusinessTerms()
    source: str = ""
    as_of: str = ""

    def __attrs_post_init__(self) -> None:
        for name, colour in (("ink", self.ink), ("accent", self.accent)):
            if not _COLOUR.fullmatch(colour):
                raise CatalogueError(
                    f"firm, {name}", f"{colour!r} is no colour", 'write one such as "#0f5c5c"'
                )
            if (found := contrast(colour, "#ffffff")) < LEAST_CONTRAST:
                raise CatalogueError(
                    f"firm, {name}",
                    f"{colour} is too light to be read on white paper (contrast {found:.1f} to 1)",
                    f"choose a darker one of at least {LEAST_CONTRAST:g} to 1",
                )
