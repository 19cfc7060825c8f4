"""The command line face."""
