"""Three lights: day is ink on warm paper, dark is its twin, safelight is black and red."""

from textual.theme import Theme

DAY = Theme(
    name="day",
    primary="#7c3f1d",
    secondary="#6f665c",
    accent="#7c3f1d",
    foreground="#221e1a",
    background="#f5f0e7",
    surface="#f5f0e7",
    panel="#ebe4d8",
    warning="#7c3f1d",
    error="#8c1d18",
    success="#221e1a",
    dark=False,
    variables={
        "quiet": "#6f665c",
        "rule": "#c9bfb0",
        "cursor": "#e6d9c4",
        "block-cursor-background": "#e6d9c4",
        "block-cursor-foreground": "#221e1a",
        "input-selection-background": "#d9c6a8",
        "scrollbar": "#d8cfc0",
        "scrollbar-background": "#f5f0e7",
        "scrollbar-hover": "#c9bfb0",
        "scrollbar-active": "#c9bfb0",
    },
)

DARK = Theme(
    name="dark",
    primary="#d99a6c",
    secondary="#9c9184",
    accent="#d99a6c",
    foreground="#e8e0d4",
    background="#171513",
    surface="#171513",
    panel="#22201c",
    warning="#d99a6c",
    error="#e5786d",
    success="#e8e0d4",
    dark=True,
    variables={
        "quiet": "#9c9184",
        "rule": "#4a443c",
        "cursor": "#3a332a",
        "block-cursor-background": "#3a332a",
        "block-cursor-foreground": "#e8e0d4",
        "input-selection-background": "#5a4a36",
        "scrollbar": "#3a352e",
        "scrollbar-background": "#171513",
        "scrollbar-hover": "#4a443c",
        "scrollbar-active": "#4a443c",
    },
)

SAFELIGHT = Theme(
    name="safelight",
    primary="#ff0000",
    secondary="#b40000",
    accent="#ff0000",
    foreground="#ea0000",
    background="#000000",
    surface="#000000",
    panel="#000000",
    warning="#ff0000",
    error="#ff0000",
    success="#ea0000",
    dark=True,
    variables={
        "quiet": "#b40000",
        "rule": "#780000",
        "cursor": "#300000",
        "block-cursor-background": "#ea0000",
        "block-cursor-foreground": "#000000",
        "input-selection-background": "#500000",
        "scrollbar": "#780000",
        "scrollbar-background": "#000000",
        "scrollbar-hover": "#780000",
        "scrollbar-active": "#780000",
    },
)

LIGHTS = (DAY, DARK, SAFELIGHT)
