"""The demo studio: its story, how its evenings are entered, and one print's way."""
