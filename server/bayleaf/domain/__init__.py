"""The card: method, entries, state, fold, findings, dossier manifest. Pure; imports only canonical."""
