"""Laws that hold for every log, over generated ones."""
