"""What the page that compares is made of: the choice, what differs and why."""
