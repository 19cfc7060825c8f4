"""The offer: everything that was reckoned, what was assumed, and where it came from."""
