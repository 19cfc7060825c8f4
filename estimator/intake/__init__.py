"""Plans come in: typed room sizes, pictures and pages of documents."""
