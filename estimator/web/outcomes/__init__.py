"""What the page of outcomes is made of: writing down, and what is learned."""
