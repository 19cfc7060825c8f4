"""The chain from a plan to a quote, its range, and what to ask next."""
