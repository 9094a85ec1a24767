"""The looks: dark, light and high contrast. Paper colours are data and belong to none of them.

The tones of texts differ in lightness as well as in hue, so that they stay apart for whoever
does not see one of the hues; the tests measure that, and each tone on each of its grounds.
"""

from __future__ import annotations

from textual.theme import Theme

DARK = Theme(
    name="dryfit-dark",
    primary="#8ab4d8",
    secondary="#c9a26d",
    accent="#e6c35c",
    foreground="#e9e6df",
    background="#17191c",
    surface="#1e2125",
    panel="#2a2e34",
    success="#7fc98b",
    warning="#f0b35a",
    error="#ff8a7a",
    dark=True,
    variables={
        "text-muted": "#b4b0a6",
        "text-primary": "#a6cbe8",
        "text-accent": "#f0d27a",
        "text-success": "#9fe3ae",
        "text-warning": "#ffc552",
        "text-error": "#ff8590",
    },
)
LIGHT = Theme(
    name="dryfit-light",
    primary="#1d5687",
    secondary="#7a5320",
    accent="#8a4b00",
    foreground="#1d1c1a",
    background="#faf8f3",
    surface="#f1eee6",
    panel="#e4dfd3",
    success="#1f6b2f",
    warning="#8a4b00",
    error="#a3201a",
    dark=False,
    variables={
        "text-muted": "#57534a",
        "text-primary": "#174a75",
        "text-accent": "#744000",
        "text-success": "#0b5030",
        "text-warning": "#5a3d00",
        "text-error": "#a0144a",
    },
)
CONTRAST = Theme(
    name="dryfit-contrast",
    primary="#ffffff",
    secondary="#ffff00",
    accent="#ffff00",
    foreground="#ffffff",
    background="#000000",
    surface="#000000",
    panel="#000000",
    success="#00ff7f",
    warning="#ffd700",
    error="#ff9a9a",
    dark=True,
    variables={
        "text-muted": "#e0e0e0",
        "text-primary": "#ffffff",
        "text-accent": "#ffff00",
        "text-success": "#00ff7f",
        "text-warning": "#ffd700",
        "text-error": "#ffb0b0",
    },
)
THEMES = (DARK, LIGHT, CONTRAST)
