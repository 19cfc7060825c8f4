"""What the page of rates is made of: fields, tables, what a change does."""
