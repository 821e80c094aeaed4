"""What people write in an editor: forms, and the line of every mistake."""
