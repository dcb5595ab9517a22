"""Bayleaf: the job card at the car, the record behind it, and the computations of the trade."""
