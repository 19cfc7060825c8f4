"""The classical reader: walls parted from other strokes, gaps closed, rooms as faces."""
