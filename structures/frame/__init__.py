"""The frame: everything a structure is made of, computed without Django and without a database."""
