"""Scenes by computation; each says where its expected figures come from."""
