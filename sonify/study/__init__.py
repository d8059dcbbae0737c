"""From a scene file to its science: reading it, checking its names, computing its Timeline."""
