"""What places and dialogs are made of."""
