package diffusion

// Numbers are the odds without the surrogate that they rest on, which holds a function and so is equal to no other.
func (o Odds) Numbers() Odds {
	o.surrogate = nil
	return o
}
