package diffusion

// Contact is what covers a part of the strand's perimeter all along a zone: a drum
// under each turn of a winding, the floor of a tube, guides. The zero value covers nothing.
type Contact struct {
	Covered float64 // share of the perimeter that meets no air, 0 to below 1
	Arcs    int     // number of covered arcs, equal and even round the strand, 1 to 8; not used where nothing is covered
	// Moves tells that the cover wanders round the strand fast against the time of its skin, so
	// that all of the perimeter meets the air for a share of the time: the film is thinned by that share.
	Moves bool
}

// Exposed is the share of the perimeter that meets the air, above 0 to 1.
func (c Contact) Exposed() float64 { return 1 - c.Covered }

// MostArcs is the largest number of covered arcs.
const MostArcs = 8

func (c Contact) check() error {
	if err := between("covered share", c.Covered, 0, 1-1e-6); err != nil {
		return err
	}
	least := 0
	if c.Covered > 0 {
		least = 1
	}
	return between("covered arcs", float64(c.Arcs), float64(least), MostArcs)
}
