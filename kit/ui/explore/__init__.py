"""The room round a design: maps over two givens on which the design is moved."""
