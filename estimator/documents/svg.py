"""A scene as SVG."""

from xml.sax.saxutils import escape, quoteattr

from estimator.documents.scene import Area, Mark, Scene, Stroke, Words, type_path

_FACES = "'DejaVu Sans Condensed','Segoe UI','Helvetica Neue',Arial,sans-serif"
_AROUND = 4.0


def svg(scene: Scene, title: str) -> str:
    """Return the scene as one SVG element that fills the width it is given."""
    around = _AROUND
    box = (-around, -around, scene.width + 2 * around, scene.height + 2 * around)
    view = " ".join(map(_number, box))
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{view}" role="img" '
        f"aria-label={quoteattr(title)} font-family={quoteattr(_FACES)} "
        'stroke-linejoin="round" stroke-linecap="butt">'
    )
    return "\n".join((head, f"<title>{escape(title)}</title>", *map(_mark, scene.marks), "</svg>"))


def _mark(mark: Mark) -> str:
    if isinstance(mark, Area):
        opacity = f' fill-opacity="{_number(mark.opacity)}"' if mark.opacity < 1 else ""
        outline = "".join(f"{_path(ring)}Z" for ring in mark.rings)
        return f'<path d="{outline}" fill="{mark.fill}" fill-rule="evenodd"{opacity}/>'
    if isinstance(mark, Stroke):
        return _stroke(mark)
    return _words(mark)


def _stroke(mark: Stroke) -> str:
    dash = f' stroke-dasharray="{_number(mark.dash)}"' if mark.dash else ""
    width = _number(mark.width)
    return (
        f'<path d="{_path(mark.points)}" fill="none" stroke="{mark.colour}" '
        f'stroke-width="{width}"{dash}/>'
    )


def _words(mark: Words) -> str:
    weight = ' font-weight="700"' if mark.bold else ""
    return (
        f'<text x="{_number(mark.x)}" y="{_number(mark.y)}" font-size="{_number(mark.size)}"'
        f'{weight} fill="{mark.colour}" text-anchor="{mark.anchor}">{escape(mark.text)}</text>'
    )


def _path(points: type_path) -> str:
    return "M" + "L".join(f"{_number(x)} {_number(y)}" for x, y in points)


def _number(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")
