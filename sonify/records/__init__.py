"""The frozen records that pass between rooms, and exact time.

Every room may import these; they import only the ground.
"""
