"""What independent libraries compute for the checks from outside, a module for each chapter.

A function is named by `by` in a page's `values.toml`. It gets the givens of the check in base units (mm, N, s, K, rad)
and returns the results that the check expects, in base units; it may not call the kit.
"""
