"""The trade's arithmetic and rules; pure functions over the model."""
