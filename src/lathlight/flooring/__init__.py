"""The floor covering: how far it runs, its strips and seams, and how much of it is wanted."""
