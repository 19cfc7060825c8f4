"""The five screens, in the order of the story."""
