"""The browser face."""
