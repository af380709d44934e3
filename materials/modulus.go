package materials

// Modulus is that of elasticity in tension at a temperature [K], with its range [Pa]; known is false where nothing was found for it.
func (p *Polymer) Modulus(T float64) (modulus Value, known bool) { return Value{}, false }
