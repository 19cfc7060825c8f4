"""How much solution of which strength every surface takes, and how it is mixed."""
