"""Many plans at once: each becomes a row of one list, whatever becomes of the others."""
