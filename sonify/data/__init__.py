"""What programs read of a lesson: science.csv, score.json, what `show --json` prints, the page's plan."""
