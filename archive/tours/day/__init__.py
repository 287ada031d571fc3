"""Several tours on one day by several guides: when each leaves, so that none stands in another's way."""
