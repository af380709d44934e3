package shape

import (
	"cmp"
	"fmt"
	"math"

	"strandry/diffusion/bounds"
)

// Passes are straight passes side by side in one plane, to and fro between two rows of rollers, in a box through which air goes along them: with half of them and against the
// other half.
//
// From pass to pass the strand turns by half a circle: over one roller, or where the passes are farther apart than a roller and a strand, over two with a straight piece between them, a quarter on each.
type Passes struct {
	Span    float64 // from the axes of one row to those of the other: the straight piece of a pass [m]
	Roller  float64 // diameter, on which the strand lies [m]
	Spacing float64 // from pass to pass [m]: the roller and the strand, which 0 stands for, or so much that two rollers find room
	Count   int     // of passes, 2 to 1,000,000
	Gap     float64 // from the strand to the housing all round [m], above 0; the rollers are no wider than the strand and both gaps
	Wall    float64 // thickness of the housing [m], 0 to 1
}

// spacing is that of the passes [m].
func (p Passes) spacing(d float64) float64 {
	if p.Spacing == 0 {
		return p.Roller + d
	}
	return p.Spacing
}

func (p Passes) check(d float64) error {
	if err := bounds.First("shape", strand(d), length("span of a pass", p.Span), length("diameter of the rollers", p.Roller), length("gap to the housing", p.Gap), wall(p.Wall),
		bounds.Of("number of passes", float64(p.Count), 2, mostPasses, "")); err != nil {
		return err
	}
	if err := bounds.First("shape", bounds.Of("spacing of the passes", p.spacing(d), (p.Roller+d)*(1-1e-12), longest, "m")); err != nil {
		return err
	}
	if apart := p.between(d); apart > 0 && apart < p.Roller {
		return fmt.Errorf("shape: spacing of the passes = %.6g m: two rollers of %.6g m do not find room in one turn; must be %.6g m, for one, or at least %.6g m",
			p.spacing(d), p.Roller, p.Roller+d, 2*p.Roller+d)
	}
	return nil
}

// between is the straight piece between the two rollers of a turn [m]; 0 where it is one roller.
func (p Passes) between(d float64) float64 {
	apart := p.spacing(d) - p.Roller - d
	if apart < 1e-9*p.Roller { // round-off
		return 0
	}
	return apart
}

// turn is the strand from pass to pass [m].
func (p Passes) turn(d float64) float64 { return math.Pi*(p.Roller+d)/2 + p.between(d) }

// around are what the housing takes more than the span, more than the passes between the first and the last, and across [m].
func (p Passes) around(d float64) (along, beside, across float64) {
	across = d + 2*p.Gap + 2*p.Wall
	return p.Roller + d + across, across, across
}

// Lead implements [Way].
func (p Passes) Lead(diameter float64) (Lead, error) {
	if err := p.check(diameter); err != nil {
		return Lead{}, err
	}
	turns := p.Count - 1
	along, beside, across := p.around(diameter)
	h := Housing{Length: p.Span + along, Width: float64(turns)*p.spacing(diameter) + beside, Height: across}
	wrap := Wrap{Over: Roller, Count: turns, Angle: math.Pi, Radius: (p.Roller + diameter) / 2}
	if p.between(diameter) > 0 {
		wrap.Count, wrap.Angle = 2*turns, math.Pi/2
	}
	return Lead{
		Length: float64(p.Count)*p.Span + float64(turns)*p.turn(diameter), Housing: h,
		WallArea:   2 * (h.Length*h.Width + h.Length*h.Height + h.Width*h.Height),
		AirSection: (h.Width-2*p.Wall)*(h.Height-2*p.Wall) - float64(p.Count)*disc(diameter),
		Wraps:      []Wrap{wrap}, BendRadius: p.Roller / 2, BendStrain: diameter / (p.Roller + diameter),
	}, nil
}

// ForLength implements [Way].
func (p Passes) ForLength(target, diameter float64) (Way, error) {
	p.Count = 2
	if err := cmp.Or(p.check(diameter), bounds.First("shape", length("length of strand", target))); err != nil {
		return nil, err
	}
	turn := p.turn(diameter)
	need := math.Ceil((target+turn)/(p.Span+turn) - 1e-9)
	if err := bounds.First("shape", bounds.Of("number of passes that it takes", need, 0, mostPasses, "")); err != nil {
		return nil, err
	}
	p.Count = max(2, int(need))
	return p, nil
}

// Most implements [Way].
func (p Passes) Most(inside Box, diameter float64) (Way, bool, error) {
	p.Count, p.Span = 2, 1 // whatever they were: they are what is sought
	if err := cmp.Or(p.check(diameter), inside.check()); err != nil {
		return nil, false, err
	}
	along, beside, across := p.around(diameter)
	best, found, held := p, false, 0.0
	for _, s := range inside.turned() {
		span, turns := s[0]-along, math.Floor((s[1]-beside)/p.spacing(diameter)*(1+1e-12))
		if span < least || turns < 1 || s[2] < across {
			continue
		}
		q := p
		q.Span, q.Count = span, 1+int(min(turns, mostPasses-1))
		if l := float64(q.Count)*span + float64(q.Count-1)*q.turn(diameter); l > held {
			best, found, held = q, true, l
		}
	}
	return best, found, nil
}

// Outline implements [Way].
func (p Passes) Outline(diameter float64, against bool) (Outline, error) {
	l, err := p.Lead(diameter)
	if err != nil {
		return Outline{}, err
	}
	side := View{Width: l.Housing.Length, Height: l.Housing.Width, Strokes: walls(l.Housing.Length, l.Housing.Width, p.Wall)}
	end := View{Width: l.Housing.Height, Height: l.Housing.Width, Strokes: walls(l.Housing.Height, l.Housing.Width, p.Wall)}
	left := p.Wall + p.Gap + diameter + p.Roller/2
	for i := range p.Count {
		y, from, to := p.Wall+p.Gap+diameter/2+float64(i)*p.spacing(diameter), left, left+p.Span
		if i == 0 {
			from = 0 // in through the housing
			side.Ports = append(side.Ports, Port{StrandIn, Point{0, y}, Point{1, 0}})
		}
		right := i%2 == 0
		if last := i == p.Count-1; last && right {
			to = side.Width
			side.Ports = append(side.Ports, Port{StrandOut, Point{to, y}, Point{1, 0}})
		} else if last {
			from = 0
			side.Ports = append(side.Ports, Port{StrandOut, Point{0, y}, Point{-1, 0}})
		} else {
			p.drawTurn(&side, left, y, right, diameter)
		}
		side.Strokes = append(side.Strokes, Stroke{Of: StrandLine, Points: []Point{{from, y}, {to, y}}})
		end.Arcs = append(end.Arcs, circle(StrandLine, Point{end.Width / 2, y}, diameter/2))
	}
	middle := side.Height / 2
	side.Ports = append(side.Ports, airPorts(Point{0, middle}, Point{side.Width, middle}, against)...)
	return Outline{Strand: diameter, Views: []View{side, end}}, nil
}

// drawTurn draws what leads from the pass at y to the next, at its right end or its left.
func (p Passes) drawTurn(v *View, left, y float64, right bool, d float64) {
	const quarter = math.Pi / 2
	r := (p.Roller + d) / 2
	x, side, lower, upper := left, left-r, math.Pi, quarter // a quarter begins where its lower angle is
	if right {
		x, side, lower, upper = left+p.Span, left+p.Span+r, -quarter, 0
	}
	first, second := Point{x, y + r}, Point{x, y + p.spacing(d) - r}
	if p.between(d) == 0 {
		v.Arcs = append(v.Arcs, circle(RollerLine, first, p.Roller/2), Arc{StrandLine, first, r, min(lower, upper), min(lower, upper) + math.Pi})
		return
	}
	v.Arcs = append(v.Arcs, circle(RollerLine, first, p.Roller/2), Arc{StrandLine, first, r, lower, lower + quarter},
		circle(RollerLine, second, p.Roller/2), Arc{StrandLine, second, r, upper, upper + quarter})
	v.Strokes = append(v.Strokes, Stroke{Of: StrandLine, Points: []Point{{side, first.Y}, {side, second.Y}}})
}
