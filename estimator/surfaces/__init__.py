"""Every surface of every room: what it is, where, how large, and how it came to be known."""
