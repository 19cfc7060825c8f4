"""What the solution screen is made of: label, measuring, mixes, wet time."""
