package shape

import (
	"cmp"
	"slices"

	"strandry/diffusion/bounds"
)

// Box is the inner size of what a housing has to go into, in any order [m].
type Box struct{ A, B, C float64 }

func (b Box) check() error {
	return bounds.First("shape", length("first side of the box", b.A), length("second side of the box", b.B), length("third side of the box", b.C))
}

// turned are the six ways to lay something into the box along its edges.
func (b Box) turned() [6][3]float64 {
	return [6][3]float64{{b.A, b.B, b.C}, {b.A, b.C, b.B}, {b.B, b.A, b.C}, {b.B, b.C, b.A}, {b.C, b.A, b.B}, {b.C, b.B, b.A}}
}

// Fits tells whether a housing fits into a box along its edges, whichever way it is turned. Sides that are equal to a millionth of a millimetre fit.
func Fits(inside Box, h Housing) (bool, error) {
	if err := cmp.Or(inside.check(), bounds.First("shape", length("length of the housing", h.Length), length("width of the housing", h.Width), length("height of the housing", h.Height))); err != nil {
		return false, err
	}
	room, size := []float64{inside.A, inside.B, inside.C}, []float64{h.Length, h.Width, h.Height}
	slices.Sort(room)
	slices.Sort(size)
	for i := range room {
		if size[i] > room[i]+1e-9 {
			return false, nil
		}
	}
	return true, nil
}
