"""What the page of sites is made of: clients, quotes, their visits, the archive."""
