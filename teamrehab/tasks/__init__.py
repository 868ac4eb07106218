"""What a person asks for in one go; both shells call these."""
