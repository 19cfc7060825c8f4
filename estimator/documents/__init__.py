"""Paper out: drawings, overlays, quotes, work sheets, tables and JSON of a plan and its quote."""
