### American spelling, over en.ftl. Only what differs.

step-authorise = Authorized by the customer
state-line-authorised = authorized
line-held-limit = held: { $what } with it, more than was authorized
line-held-word = held: done without an authorization
lines-stages = Stages are authorized apart: choose the lines that the customer means.
not-authorised = { $operation } is not authorized: ask the customer, and record the answer first.
beyond-limit = { $operation } is held: with what was authorized beside it it comes to { $needed }, and the customer said up to { $limit }. Ask, and record the answer first.
