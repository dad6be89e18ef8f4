"""The command line: what can be asked of growdesk without a window.

Each command is one module with ``run(arguments, desk)``. Modules load what they need
when they run, so that judging a facts file answers in a blink.
"""
