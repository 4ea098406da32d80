"""One drawing function per model; the module is named like the model, dots as underscores."""
