"""Small controls that several panes and dialogs share."""
