"""What is kept on disk: the register, its journal, its view, images, private files."""
