"""Colours of cords as makers name them."""

from __future__ import annotations

import colorsys
import hashlib
import re

from cordwright.draw.ink import mixed

WORDS = {
    "undyed": "#eee3cd", "natural": "#e3d2b0", "ecru": "#eadfc6", "cream": "#f3e9d2",
    "white": "#f4f1ea", "ivory": "#f2ead8", "flax": "#d9c49a", "straw": "#e3c878",
    "sand": "#d9bf94", "wheat": "#dfc287", "beige": "#d8c5a4", "oat": "#e2d3b5",
    "honey": "#d79a3c", "mustard": "#cf9c2f", "ochre": "#c98d35", "yellow": "#e8c547",
    "gold": "#cfa54a", "amber": "#d58b31", "orange": "#dc7f3d", "apricot": "#e8a978",
    "peach": "#eeb596", "coral": "#e07a61", "terracotta": "#c2643f", "rust": "#b4552f",
    "brick": "#a94a38", "red": "#b93a37", "wine": "#7c2f3b", "burgundy": "#722b38",
    "rose": "#d08a8d", "blush": "#e6bfb5", "pink": "#dd9aa4", "plum": "#6b4460",
    "purple": "#755184", "lavender": "#a99bc2", "lilac": "#bba5cb", "violet": "#6f5a94",
    "indigo": "#34466f", "ink": "#2f3b55", "navy": "#2b3a5a", "blue": "#4372a0",
    "sky": "#8db9d4", "denim": "#4f6d8a", "slate": "#64727d", "teal": "#2f7d80",
    "petrol": "#28626d", "turquoise": "#4fa9a6", "mint": "#a9d0b9", "sage": "#9dad8b",
    "moss": "#76804a", "olive": "#7c7a42", "green": "#4d8259", "leaf": "#6f9a54",
    "fern": "#5f8a52", "forest": "#35593f", "tan": "#c2986a", "camel": "#bd9160",
    "brown": "#7b5538", "chestnut": "#7c4a32", "chocolate": "#5b3d2c", "walnut": "#6a4b36",
    "bark": "#77604b", "stone": "#b8b0a2", "pebble": "#a8a196", "silver": "#c3c5c6",
    "grey": "#8d8d8b", "gray": "#8d8d8b", "ash": "#a9a8a3", "smoke": "#86888a",
    "charcoal": "#474849", "black": "#323031", "chalk": "#efece3", "holly": "#35604a",
    "pine": "#3f6350", "ivy": "#4b6b4a", "berry": "#8c2f48", "cherry": "#a52f3c",
    "raspberry": "#b23a5a", "mulberry": "#6c3450", "aubergine": "#4c2c48", "sea": "#5b9aa0",
    "ocean": "#2f6a8c", "aqua": "#7cc3c4", "copper": "#b4693f", "bronze": "#8f6b3c",
    "brass": "#b8963f", "clay": "#b97a5a", "cinnamon": "#a5643c", "ginger": "#b9703a",
    "saffron": "#e0a12e", "lemon": "#ecd96a", "butter": "#f0dc97", "vanilla": "#f2e5bd",
    "pearl": "#ece7dd", "bone": "#e6ddca", "linen": "#dfd2b9", "hemp": "#c8b48a",
    "jute": "#c4a878", "oatmeal": "#dccfb6", "mushroom": "#b5a597", "taupe": "#9c8b7b",
    "khaki": "#a89b6c", "lime": "#b3c34f", "apple": "#8fb04d", "pistachio": "#b5c68a",
    "emerald": "#2f7f58", "jade": "#4f9a7a", "ice": "#d4e4ea", "steel": "#7d8b97",
    "graphite": "#54575b", "anthracite": "#3c3f42", "coal": "#37373a", "coffee": "#5f4433",
    "cocoa": "#6b4a38", "caramel": "#b27a45", "toffee": "#a06d40", "hazel": "#94704a",
    "mahogany": "#6b3327", "maroon": "#6d2a30", "crimson": "#a32638", "scarlet": "#c83a2f",
    "ruby": "#982744", "poppy": "#d0452f", "salmon": "#e59683", "shell": "#edd6c5",
    "magenta": "#b0427e", "fuchsia": "#bb4486", "orchid": "#b77fb8", "mauve": "#a5859c",
    "heather": "#9a849f", "iris": "#6a5da0", "cornflower": "#6f8fc4", "cobalt": "#2f559c",
    "azure": "#5f9fd0", "midnight": "#262f4a", "storm": "#596673", "cloud": "#d5d8d9",
    "fog": "#c2c6c6", "mist": "#b9c6cc", "dove": "#b4b1ab", "snow": "#f5f5f2",
}  # fmt: skip
"""Colour words with the sRGB that they are drawn in: chosen by eye, to look like dyed cord."""

LIGHTER = re.compile(r"\b(light|pale|soft)\b")
DARKER = re.compile(r"\b(dark|deep)\b")
HEX = re.compile(r"#[0-9a-f]{6}")


def rgb_of(words: str | None) -> str:
    """The sRGB colour, ``#rrggbb``, that a cord is drawn in.

    The last known colour word counts, as in 'rust red'; 'light' and 'dark' shift it. Words that are
    not known give a colour of their own, always the same one; no words give undyed cord.

    >>> rgb_of("sand"), rgb_of("#336699"), rgb_of(None) == rgb_of("undyed")
    ('#d9bf94', '#336699', True)
    """
    text = (words or "undyed").strip().lower()
    if HEX.fullmatch(text):
        return text
    known = [w for w in re.findall(r"[a-z]+", text) if w in WORDS]
    colour = WORDS[known[-1]] if known else _own(text)
    if LIGHTER.search(text):
        return mixed(colour, "#ffffff", 0.35)
    return mixed(colour, "#000000", 0.3) if DARKER.search(text) else colour


def linear(colour: str) -> tuple[float, float, float]:
    """Linear red, green and blue, 0 to 1, of an sRGB colour (IEC 61966-2-1)."""
    r, g, b = (
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4
        for c in (p / 255 for p in _parts(colour))
    )
    return r, g, b


def _parts(colour: str) -> tuple[int, int, int]:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def _own(text: str) -> str:
    digest = hashlib.sha256(text.encode()).digest()
    r, g, b = colorsys.hls_to_rgb(digest[0] / 255, 0.42 + digest[1] / 1275, 0.42)
    return "#" + "".join(f"{round(255 * c):02x}" for c in (r, g, b))
