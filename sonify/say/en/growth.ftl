## claims: rises or falls or swings or more or less

growth-up = It goes up.
growth-down = It goes down.
growth-hill = It goes up, then down.
growth-valley = It goes down, then up.
growth-level = It stays the same.
