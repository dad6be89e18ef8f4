"""The window: everything a grower sees and touches, and nothing that judges."""
