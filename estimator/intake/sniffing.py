"""Tell what a file is from its first bytes, whatever its name says."""

from estimator.errors import SourceError, UnknownFormat

PICTURES = {
    b"\x89PNG\r\n\x1a\n": "png",
    b"\xff\xd8\xff": "jpeg",
    b"II*\0": "tiff",
    b"MM\0*": "tiff",
    b"II+\0": "tiff",
    b"MM\0+": "tiff",
    b"GIF87a": "gif",
    b"GIF89a": "gif",
    b"BM": "bmp",
}

_OTHERS = {
    b"\xd0\xcf\x11\xe0": "an old office document",
    b"AC10": "a DWG drawing",
    b"%!PS": "a PostScript file",
    b"8BPS": "a layered image document",
    b"\x1f\x8b": "a compressed archive",
    b"7z\xbc\xaf": "a compressed archive",
    b"Rar!": "a compressed archive",
    b"\0\0\1\0": "an icon",
}
_BRANDS = {b"heic": "HEIC", b"heix": "HEIC", b"mif1": "HEIC", b"msf1": "HEIC", b"avif": "AVIF"}
_IN_ZIP = {
    b"word/": "a word-processor document",
    b"xl/": "a spreadsheet",
    b"ppt/": "a slide show",
}
_SEARCHED = 1024  # bytes in which a PDF may begin and a text declares itself
_LISTED = 65_536  # bytes in which a zip archive names its first parts

REMEDY = "send the plan as PDF, DXF, IFC, PNG, JPEG, TIFF or WebP"


def drawing_kind(data: bytes) -> str | None:
    """Return ``dxf`` or ``ifc`` for a drawing that is read as geometry; None for another file.

    >>> drawing_kind(b"ISO-10303-21;")
    'ifc'
    """
    head = data[:_SEARCHED].lstrip(b"\xef\xbb\xbf \t\r\n")
    if head.startswith(b"ISO-10303-21"):  # ISO 10303-21, exchange structure
        return "ifc"
    words = head.split()
    is_text = words[:2] == [b"0", b"SECTION"] or (words[:1] == [b"999"] and b"SECTION" in words)
    return "dxf" if is_text or head[:22].endswith(b"Binary DXF\r\n\x1a\x00") else None


def kind_of(data: bytes, name: str) -> str:
    """Return ``pdf`` or the kind of picture.

    Raises
    ------
    SourceError
        When the file is empty; UnknownFormat, saying what it is, when it is of another kind.

    Examples
    --------
    >>> kind_of(b"%PDF-1.7 ...", "plan.png")
    'pdf'
    """
    head = data[:_SEARCHED]
    if not head:
        raise SourceError(name, "the file is empty", REMEDY)
    if head[:4] == b"RIFF" and head[8:12] == b"WEBP":
        return "webp"
    for magic, kind in PICTURES.items():
        if head.startswith(magic):
            return kind
    if b"%PDF-" in head:
        return "pdf"
    raise UnknownFormat(name, f"it is {_other(data, head)}, which is not read", REMEDY)


def _other(data: bytes, head: bytes) -> str:
    """Return in words what a file is that is neither a picture read here nor a PDF."""
    for magic, what in _OTHERS.items():
        if head.startswith(magic):
            return what
    if head[4:8] == b"ftyp":
        brand = _BRANDS.get(head[8:12])
        return f"a {brand} photo" if brand else "a video"
    if head.startswith(b"PK"):
        listed = data[:_LISTED]
        return next((what for part, what in _IN_ZIP.items() if part in listed), "a zip archive")
    try:
        text = head.decode("utf-8", errors="strict" if len(data) <= _SEARCHED else "ignore")
    except UnicodeDecodeError:
        return "a file of an unknown kind"
    lower = text.lower()
    if "<svg" in lower:
        return "an SVG drawing"
    if "<html" in lower or "<!doctype html" in lower:
        return "a web page"
    if text.split()[:2] == ["0", "SECTION"]:
        return "a DXF drawing"
    if all(letter.isprintable() or letter.isspace() for letter in text):
        return "a text file"
    return "a file of an unknown kind"
