package diffusion

import (
	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
	"strandry/diffusion/section"
)

// crossing is the section of a strand in r and θ while a cover keeps its place. Before and after it, and beside it all the
// time, the strand's cylinder holds the mean round, with the same content.
type crossing struct {
	march    section.March
	grid     *section.Grid // of the zone; nil where all round is alike
	current  bool          // the section holds the present state, finer than the mean round
	saved    []float64
	observed func(t float64, c []float64)
	round    []float64 // means round, for who observes
	key      sectionKey
	grids    *grids
}

// Fixed tells that a part of the perimeter is covered and stays so.
func (c Contact) Fixed() bool { return c.Covered > 0 && !c.Moves }

// film is the share of the perimeter by which the film is thinned: a cover in its place does not thin it.
func (c Contact) film() float64 {
	if c.Fixed() {
		return 1
	}
	return c.Exposed()
}

// anglesRound is the number of angles of a covered strand.
func (s Settings) anglesRound() int {
	if s.angles > 0 {
		return s.angles
	}
	return anglesFor(s.Resolution)
}

// anglesFor is the number of angles that goes with a resolution: those whose errors package section tells.
func anglesFor(resolution float64) int {
	switch {
	case resolution < 4.5:
		return section.CoarseAngles
	case resolution < 7:
		return section.UsualAngles
	case resolution < 14:
		return section.RefinedAngles
	}
	return section.MaxAngles
}

// prepare readies the strand for the contact of a zone. A cover like that of the zone before stays in its place; any other one
// finds the mean round.
func (l *strand) prepare(c Contact, s Settings) error {
	x := &l.crossing
	if !c.Fixed() {
		x.grid, x.current = nil, false
		return nil
	}
	key := sectionKey{l.cylinder.Grid, roundKey{section.Shape{Exposed: c.Exposed(), Arcs: c.Arcs}, s.anglesRound()}}
	if x.current && x.key == key {
		return nil
	}
	g, err := x.grids.across(key)
	if err != nil {
		return err
	}
	x.grid, x.key, x.current = g, key, true
	x.march.Start(g, 0)
	return x.march.Spread(l.cylinder.C)
}

// advance marches for a time [s], in r and θ where a cover keeps its place.
func (l *strand) advance(p radial.Problem, duration float64, n rosenbrock.Settings) error {
	if l.crossing.grid == nil {
		return l.cylinder.Advance(p, duration, n)
	}
	l.cross()
	if err := l.crossing.march.Advance(p, duration, n); err != nil {
		return err
	}
	return l.fold()
}

// advanceThrough marches for the last of the rising durations [s] and hands over, on the way, the strand that each of the earlier
// ones would have ended with, the branch, and at the end itself.
func (l *strand) advanceThrough(durations []float64, n rosenbrock.Settings, branch *strand, at func(i int, from *strand) error) error {
	if l.crossing.grid == nil {
		return l.cylinder.AdvanceThrough(l.problem(), durations, n, &branch.cylinder, func(i int, c *radial.March) error {
			if c == &l.cylinder {
				return at(i, l)
			}
			branch.crossing.grid, branch.crossing.current = nil, false
			return at(i, branch)
		})
	}
	l.cross()
	branch.cylinder.Start(l.cylinder.Grid, 0)
	return l.crossing.march.AdvanceThrough(l.problem(), durations, n, &branch.crossing.march, func(i int, x *section.March) error {
		from := l
		if x != &l.crossing.march {
			from = branch
			from.crossing.grid, from.crossing.key, from.crossing.current = l.crossing.grid, l.crossing.key, true
		}
		if err := from.fold(); err != nil {
			return err
		}
		return at(i, from)
	})
}

// cross gives the section what the cylinder holds besides the field.
func (l *strand) cross() {
	x, c := &l.crossing.march, &l.cylinder
	x.Time, x.Lost, x.Beside, x.Gathered, x.Stats = c.Time, c.Lost, c.Beside, c.Gathered, c.Stats
	x.Along, x.Observe = c.Along, nil
	if c.Observe != nil {
		x.Observe = l.crossing.observed
	}
}

// fold takes the section into the cylinder, as its mean round.
func (l *strand) fold() error {
	x, c := &l.crossing.march, &l.cylinder
	c.Time, c.Lost, c.Beside, c.Gathered, c.Stats = x.Time, x.Lost, x.Beside, x.Gathered, x.Stats
	return x.Profile(c.C)
}

// observe shows the mean round to who watches the cylinder.
func (l *strand) observe(t float64, c []float64) {
	x, cylinder := &l.crossing, &l.cylinder
	cylinder.Lost, cylinder.Beside = x.march.Lost, x.march.Beside
	if l.trace == nil {
		l.watch(t, nil)
		return
	}
	x.round = x.round[:0]
	for i := range cylinder.Grid.Len() {
		x.round = append(x.round, x.grid.Round(c, i))
	}
	l.watch(t, x.round)
	l.trace.cut(l, t, c)
}

// keep and restore hold the field at the entry of a zone that has to be marched again.
func (l *strand) keep() {
	l.saved = append(l.saved[:0], l.cylinder.C...)
	if l.crossing.grid != nil {
		l.crossing.saved = append(l.crossing.saved[:0], l.crossing.march.C...)
	}
}

func (l *strand) restore() {
	copy(l.cylinder.C, l.saved)
	if l.crossing.grid != nil {
		copy(l.crossing.march.C, l.crossing.saved)
	}
}

// behind is the content at the surface behind the middle of the cover [kg/kg dry], of the outermost node of a section; that of
// the whole surface where nothing keeps covered.
func (l *strand) behind() float64 {
	if x := &l.crossing; x.grid != nil {
		return max(0, x.march.C[len(x.march.C)-1])
	}
	return max(0, l.cylinder.C[len(l.cylinder.C)-1])
}
