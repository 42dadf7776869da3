"""Rules about pictures beside an entry."""
