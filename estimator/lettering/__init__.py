"""The lettering of a plan: words found, understood, given to rooms, and weighed for the scale."""
