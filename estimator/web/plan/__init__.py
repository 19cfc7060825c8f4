"""What the plan screen is made of: opening, sketching, scale, rooms, what to look at first."""
