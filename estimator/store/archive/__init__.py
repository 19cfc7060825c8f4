"""Everything that is kept, as one file of open formats, and back into any store."""
