"""The screens; each is imported when it is first shown."""
