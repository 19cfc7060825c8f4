"""The browser face: it shows and collects, and leaves all reckoning to the workflow."""
