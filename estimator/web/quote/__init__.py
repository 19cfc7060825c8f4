"""What the quote screen is made of: terms, papers, to whom."""
