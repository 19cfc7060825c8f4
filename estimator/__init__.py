"""From a floor plan to surfaces, disinfectant, crew time and a price."""
