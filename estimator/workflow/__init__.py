"""The use cases, where files and the reckoning meet."""
