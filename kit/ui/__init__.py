"""What a person works with: panels, lessons, the notebooks' folder."""

from kit.ui.messages import lose_none

lose_none()
