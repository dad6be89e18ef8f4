"""The three panes of the window; none of them knows another."""
