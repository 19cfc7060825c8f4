"""From a picture of a floor plan to a plan of its rooms; pixels end here."""
