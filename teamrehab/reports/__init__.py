"""What is told to staff and coach: findings, their wording, their drawing."""
