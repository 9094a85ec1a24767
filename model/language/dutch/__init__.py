"""All that is said, in Dutch."""
