"""The demo studio: an invented harbour town, its day sheets, and how its pictures are drawn."""
