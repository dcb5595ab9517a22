"""Many phones and one server in one process, with seeded schedules of all that can go wrong between them."""
