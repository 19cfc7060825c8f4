"""Who does what where and when on site, and when people may come back."""
