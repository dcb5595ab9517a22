"""The PDF report of a job: what it says (pure), and how it is set in type (a child process)."""
