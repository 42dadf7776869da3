"""The theme: templates, styles and scripts; MkDocs finds it here by name."""
