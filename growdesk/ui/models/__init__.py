"""Qt models over the frozen lines that services hand out."""
