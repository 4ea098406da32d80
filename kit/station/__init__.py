"""What is worked out over whole jobs: how two differ, what is heavy, bought and cut, in what order it is done."""
