"""A sheet of paper in a photo: found, laid flat, and its light evened."""
