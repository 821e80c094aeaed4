"""What the documentation shows, made from the program itself."""
