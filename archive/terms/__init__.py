"""The thesaurus: the words of the trade, with dialect and spelling, broader and related (W3C SKOS)."""
