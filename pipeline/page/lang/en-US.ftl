### American spelling, over en.ftl. Only what differs.

step-authorise = Authorized by the customer
state-line-authorised = authorized
line-held-limit = held: { $what } with it, more than was authorized
line-held-word = held: done without an authorization
