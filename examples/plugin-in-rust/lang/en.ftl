kind-resting-current = Current at rest
resting-current = While nothing moves, the feed draws { $value } A.
