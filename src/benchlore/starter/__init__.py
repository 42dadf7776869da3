"""What ``start`` lays down for a new knowledge base."""
