"""What is cut alike: items that are one die, and dies that are one shape in its sizes."""
