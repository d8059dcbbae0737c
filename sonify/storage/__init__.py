"""What is on disk: shipped files, a pack written whole or not at all, and what is kept between runs."""
