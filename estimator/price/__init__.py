"""What the work costs and what is charged for it."""
