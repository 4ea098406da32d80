"""How much stock parts take, and what that costs."""
