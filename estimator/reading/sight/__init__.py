"""The learned reader: rooms and openings as a network sees them, pixel by pixel."""
