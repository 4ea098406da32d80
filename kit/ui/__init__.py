"""What a person works with: panels, lessons, the notebooks' folder."""
