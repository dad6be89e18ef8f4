"""The pure core: facts in, verdicts, doses and batches out.

No Qt, no SQL, no files, no clock.
"""
