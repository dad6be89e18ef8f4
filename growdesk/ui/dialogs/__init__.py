"""Forms that take something in; they hand out drafts and never write themselves."""
