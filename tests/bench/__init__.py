"""How fast growdesk is, against floors that are measured in the same run.

``python -m tests.bench`` runs all bars and prints a table; tests gate on counts only.
"""
