"""What makes a piece of cloth of a surface laid flat: seams, hems, darts, relief cuts, marks."""
