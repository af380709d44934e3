package machine

import (
	"strandry/diffusion"
	"strandry/diffusion/machine/shape"
)

// Way is how the strand is led through the chamber of zone i: as it was stated, or made as long as the zone; nil where no shape is stated. An error tells why that shape cannot be as long.
func (m *Machine) Way(d *diffusion.Design, i int) (shape.Way, error) {
	c, long := &m.Chambers[i], d.Path[i].Length
	if c.Led == nil || c.Held || long <= 0 {
		return c.Led, nil
	}
	return c.Led.ForLength(long, 2*d.Radius)
}
