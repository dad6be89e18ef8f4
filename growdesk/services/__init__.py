"""Use cases: they open and close their own transactions and give plain values."""
