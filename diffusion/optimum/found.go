package optimum

// Fall is that the cheapest place so far was found.
type Fall struct {
	Looked int // places looked at by then, that one included
	Cost   float64
}

// Found is what a search has found.
type Found struct {
	Points []*Point // in the order in which they were looked at
	Best   *Point   // the cheapest at which all constraints hold; where there is none, that which lacks least
	Holds  bool     // all constraints hold at Best

	Met   []int  // for each constraint, at how many of the points it holds
	Falls []Fall // how the least cost fell over the search

	Starts   int  // starts that were made
	Ended    int  // of them, those that went on until they gained nothing more
	Agreeing int  // of those, that came to the cost of the best within [Settings.Agree]
	All      bool // every place there is was looked at
	Settled  bool // at least eight starts have ended, three of which agree, or all places were looked at
	Stopped  bool // it is not, for the budget was spent
}

func (m *memory) found(starts []*start, all bool, s Settings) *Found {
	f := &Found{Points: m.points, Best: m.best, Holds: m.best.Holds(), Falls: m.falls, Starts: len(starts), Ended: ended(starts), All: all}
	f.Met = make([]int, m.problem.Constraints)
	for _, p := range m.points {
		for j, v := range p.Violations {
			if v <= 0 {
				f.Met[j]++
			}
		}
	}
	f.Agreeing = agreeing(starts, m.best, s.Agree)
	f.Settled = all || settled(starts, m.best, s.Agree)
	f.Stopped = !f.Settled && m.spent
	return f
}
