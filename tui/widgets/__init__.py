"""Widgets that paint themselves, and know nothing of sessions."""
