"""The trade: lengths, kits, cuts, sessions and what they tell. Knows no screen."""
