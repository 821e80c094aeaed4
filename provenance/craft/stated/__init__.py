"""What a statement is made of: the claims of each of its parts."""
