"""What is to be done beside watering, dated: one module a sort of job."""
