"""What is kept: jobs, clients, sites, quotes with their versions, and outcomes, in one database."""
