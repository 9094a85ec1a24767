"""The interface: what is seen and typed, and nothing that the model should know."""
