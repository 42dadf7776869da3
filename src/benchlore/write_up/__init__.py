"""Notes, captions and answers to a draft entry."""
