"""Parts packed onto rolls, boards and irregular offcuts; every layout is judged before it is given back."""
