"""The book of furniture, room uses, strengths, paces and rates, as data files."""
