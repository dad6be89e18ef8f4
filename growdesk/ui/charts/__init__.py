"""The charts: matplotlib is loaded inside functions here, on the first chart."""
