"""The look of the app: options of the server, and the style sheet."""

from pathlib import Path

from estimator.documents.palette import ACCENT, ALARM, DOUBT, HAIRLINE, INK, PAPER

STYLE_SHEET = Path(__file__).with_name("style.css")
ICON = Path(__file__).with_name("icon.svg")

LARGEST_UPLOAD_MB = 100

_OPTIONS = {
    "browser.gatherUsageStats": "false",
    "client.showErrorDetails": "none",
    "client.showErrorLinks": "false",
    "client.toolbarMode": "minimal",
    "server.address": "localhost",
    "server.fileWatcherType": "none",
    "server.maxUploadSize": str(LARGEST_UPLOAD_MB),
    "server.showEmailPrompt": "false",
    "theme.base": "light",
    "theme.primaryColor": ACCENT,
    "theme.backgroundColor": PAPER,
    "theme.secondaryBackgroundColor": "#f1ede4",
    "theme.textColor": INK,
    "theme.linkColor": ACCENT,
    "theme.redColor": ALARM,
    "theme.orangeColor": DOUBT,
    "theme.yellowColor": DOUBT,
    "theme.greenColor": ACCENT,
    "theme.blueColor": ACCENT,
    "theme.borderColor": HAIRLINE,
    "theme.dataframeBorderColor": HAIRLINE,
    "theme.dataframeHeaderBackgroundColor": "#f1ede4",
    "theme.showWidgetBorder": "true",
    "theme.baseRadius": "4px",
    "theme.baseFontSize": "16",
    "theme.font": "sans-serif",
    "theme.headingFont": "serif",
}
"""Both typefaces ship with Streamlit, so nothing is fetched when the app runs."""


def options() -> tuple[str, ...]:
    """Return the arguments that give ``streamlit run`` the look and manners of the app."""
    return tuple(f"--{name}={value}" for name, value in _OPTIONS.items())
