"""The controlled vocabulary: typed terms, their loader, the phrase recogniser, did-you-mean."""
