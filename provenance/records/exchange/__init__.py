"""Files that travel: copies of a register, bags, and cells of tables."""
