"""Test data that both folds are held to, and the tools that write it.

fold/       {about, methods, entries, expect, state}: `methods` names documents of methods/, `expect` is by
            hand ({JSON pointer into the state: value}), `state` is the whole card state. Played as written,
            reversed, doubled and shuffled. Written out by `python tests/vectors/author.py` from scenes/.
canonical/  {about, text or value, canonical and hash, or code}: by hand.
entries/    {about, text, code, field}: hash and envelope, code "" where it is read. From envelopes.py.
tally/      {about, rivets, figures, verdict} of the tally reconciliation: by hand.
methods/    compiled documents of small invented methods; `name_2` is a later revision of `name`.
"""
