"""Other ways of feeding a long, lightly loaded run, laid side by side."""
