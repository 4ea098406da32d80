"""Small builders for the tests of what shows them."""

from tests.small_subjects import works  # noqa: F401  (a fixture)
