package diffusion

// State is a cross-section at one place. No content of it lies below zero: where the numbers did, ahead of a front that
// wets a dry strand or where nearly all is gone, it is zero, and its error is no less than what was cut off.
type State struct {
	Mean        float64 // area mean of the moisture content [kg/kg dry]
	Centre      float64 // on the axis [kg/kg dry]
	Skin        float64 // at the surface, in the mean round [kg/kg dry]
	Temperature float64 // area mean [K]

	below struct{ mean, centre, skin float64 } // what was cut off [kg/kg dry]
}

// clipped is a content with what is cut off to make it no less than zero.
func clipped(x float64) (content, below float64) { return max(0, x), max(0, -x) }

// stateOf is the state of a section.
func (l *strand) stateOf(c []float64, temperature float64) State {
	g, s := l.cylinder.Grid, State{Temperature: temperature}
	s.Mean, s.below.mean = clipped(g.Mean(c))
	s.Centre, s.below.centre = clipped(g.Centre(c))
	s.Skin, s.below.skin = clipped(c[len(c)-1])
	return s
}

// profile appends the contents of a section.
func profile(into, c []float64) []float64 {
	for _, x := range c {
		into = append(into, max(0, x))
	}
	return into
}

// checkBelowZero tells whether the means of a result are no further below zero than the error of a step, which is not relative to the
// content below a floor [kg/kg dry].
func (r *Result) checkBelowZero(floor float64) error {
	const least = 1e-12 // [kg/kg dry]
	floor = max(floor, least)
	worst := max(r.Start.below.mean, r.Nozzle.below.mean)
	for i := range r.Zones {
		worst = max(worst, r.Zones[i].Exit.below.mean)
	}
	if worst > floor {
		return ErrBelowZero
	}
	return nil
}
