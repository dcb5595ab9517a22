"""What must hold of the tree itself."""
