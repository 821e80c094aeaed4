"""What was promised of editions, how many there are, and what is said of them."""
