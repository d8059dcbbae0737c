"""The whole pipeline in one readable function (being written)."""
