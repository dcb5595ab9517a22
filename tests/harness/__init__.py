"""What several kinds of test stand on: the browser, Node, servers on loopback."""
