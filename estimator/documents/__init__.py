"""Quotes, schedules and drawings on paper and as files."""
