"""The sync of a simulated phone: `web/src/sync`, module for module and rule for rule."""
