"""One table for each closed set. Checks, printing, help and page read the same row; its name in words is in `say`."""
