"""What a person does with the program, one function each."""
