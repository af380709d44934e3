package shape

import (
	"cmp"
	"math"

	"strandry/diffusion/bounds"
)

// Tube is a straight tube, through which the strand runs along its floor and air goes beside it.
type Tube struct {
	Length float64 // [m]
	Bore   float64 // inner diameter, wider than the strand [m]
	Wall   float64 // thickness [m], 0 to 1
}

func (t Tube) check(d float64) error {
	return bounds.First("shape", strand(d), length("length of the tube", t.Length), bounds.Of("bore of the tube", t.Bore, d*(1+1e-6), longest, "m"), wall(t.Wall))
}

// outer is the outer diameter [m].
func (t Tube) outer() float64 { return t.Bore + 2*t.Wall }

// Lead implements [Way].
func (t Tube) Lead(diameter float64) (Lead, error) {
	if err := t.check(diameter); err != nil {
		return Lead{}, err
	}
	outer := t.outer()
	return Lead{
		Length: t.Length, Housing: Housing{Length: t.Length, Width: outer, Height: outer, Diameter: outer},
		WallArea: math.Pi*outer*t.Length + 2*disc(outer), AirSection: disc(t.Bore) - disc(diameter), Cover: touching(1),
	}, nil
}

// ForLength implements [Way].
func (t Tube) ForLength(target, diameter float64) (Way, error) {
	t.Length = target
	if err := t.check(diameter); err != nil {
		return nil, err
	}
	return t, nil
}

// Most implements [Way].
func (t Tube) Most(inside Box, diameter float64) (Way, bool, error) {
	t.Length = 1 // whatever it was: it is what is sought
	if err := cmp.Or(t.check(diameter), inside.check()); err != nil {
		return nil, false, err
	}
	best, found := Tube{}, false
	for _, s := range inside.turned() {
		if outer := t.outer(); outer <= s[1] && outer <= s[2] && (!found || s[0] > best.Length) {
			best, found = t, true
			best.Length = s[0]
		}
	}
	return best, found, nil
}

// Outline implements [Way].
func (t Tube) Outline(diameter float64, against bool) (Outline, error) {
	if err := t.check(diameter); err != nil {
		return Outline{}, err
	}
	outer, inner := t.outer(), t.Wall+t.Bore
	floor := t.Wall + diameter/2
	side := View{
		Width: t.Length, Height: outer,
		Strokes: []Stroke{
			rectangle(HousingLine, 0, 0, t.Length, outer), rectangle(HousingLine, 0, t.Wall, t.Length, inner),
			{Of: StrandLine, Points: []Point{{0, floor}, {t.Length, floor}}},
		},
		Ports: []Port{{StrandIn, Point{0, floor}, Point{1, 0}}, {StrandOut, Point{t.Length, floor}, Point{1, 0}}},
	}
	middle := (floor + diameter/2 + inner) / 2 // of the air above the strand
	side.Ports = append(side.Ports, airPorts(Point{0, middle}, Point{t.Length, middle}, against)...)
	centre := Point{outer / 2, outer / 2}
	end := View{
		Width: outer, Height: outer,
		Arcs: []Arc{circle(HousingLine, centre, outer/2), circle(HousingLine, centre, t.Bore/2), circle(StrandLine, Point{outer / 2, floor}, diameter/2)},
	}
	return Outline{Strand: diameter, Views: []View{side, end}}, nil
}
