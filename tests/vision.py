"""What people with a colour-vision deficiency see, simulated.

Source: Machado, Oliveira and Fernandes, "A Physiologically-based Model for Simulation of Color
Vision Deficiency", IEEE TVCG 15 (6), 2009: the matrices of severity 1.0, which are for linear
RGB. From memory; a test checks that each of them leaves white as it is.
"""

from __future__ import annotations

from model.colour import Rgb, _linear

MATRICES = {
    "protan": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deutan": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritan": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}


def as_seen(rgb: Rgb, kind: str) -> Rgb:
    """A colour as it is seen with one of the deficiencies."""
    light = _linear(rgb)
    seen = [sum(a * b for a, b in zip(row, light, strict=True)) for row in MATRICES[kind]]
    red, green, blue = (_channel(min(1.0, max(0.0, share))) for share in seen)
    return red, green, blue


def _channel(share: float) -> int:
    """The sRGB curve; source: IEC 61966-2-1, as in WCAG 2.2's "relative luminance"."""
    curved = share * 12.92 if share <= 0.0031308 else 1.055 * share ** (1 / 2.4) - 0.055
    return round(255 * curved)
