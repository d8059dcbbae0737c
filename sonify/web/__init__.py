"""The local server of `sonify serve`: the classroom page with its Plan and Print, on one machine, with no account.

It keeps nothing of the teacher's but in memory and in a temporary folder that goes with it.
"""
