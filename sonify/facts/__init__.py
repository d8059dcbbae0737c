"""What can be said of a lesson, computed from its records, without words: readings, verdicts on claims, what is true.

A verdict is taken by other code than chose the sentence: it knows the records only, not the process, rule or arranger.
"""
