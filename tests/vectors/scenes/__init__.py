"""The vectors as they were written: one function a behaviour, with what must hold by hand."""
