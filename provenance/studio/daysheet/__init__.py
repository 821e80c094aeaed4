"""Day sheets: a day's work, written in an editor and entered all together or not at all."""
