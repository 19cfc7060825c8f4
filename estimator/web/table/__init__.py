"""The drawing table: a component of our own, to draw and correct rooms on."""
