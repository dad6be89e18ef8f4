"""The weekly sheet on paper: laid out as data, then drawn on a PDF or a printer."""
