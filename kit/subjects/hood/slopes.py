"""Where the slopes of a proposed hood come from."""

PROPOSED, GIVEN = "proposed", "as given"
