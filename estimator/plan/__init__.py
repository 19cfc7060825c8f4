"""What is known about a site: rooms in metres, openings, furnishings, and each doubt."""
