package diffusion

import "strandry/materials"

// Survival says whether the strand keeps its shape on its way: that it neither stretches nor sticks nor melts.
type Survival int

const (
	// Holds: even the hottest air of the way is no hotter than the strand bears.
	Holds Survival = iota
	// Doubtful: the strand, or only its air, comes into the range where it begins to give way, or the air
	// beyond it.
	Doubtful
	// Softens: the strand comes above that range.
	Softens
)

func (s Survival) String() string { return [...]string{"holds", "doubtful", "softens"}[s] }

// Endurance is a survival and the place that decides it: where the strand is hottest of those that are worst.
type Endurance struct {
	Survival Survival
	Zone     string  // or storage; "" as the strand sets off
	Strand   float64 // hottest mean of the section there [K]
	Air      float64 // of the air there [K]
	Bears    float64 // up to here the strand holds [K]
	Yields   float64 // above here it is all but sure to give way [K]
}

// Running tells that only the air is too hot: the strand would soften, or might, if the feed stopped.
func (e Endurance) Running() bool { return e.Survival == Doubtful && e.Strand <= e.Bears+hotter }

// Endures judges the strand of a result by the temperature at which it gives way ([materials.Polymer.GivesWay]).
// Water that is taken up may make a strand hotter within a zone than at both its ends; a strand at rest reaches the temperature of its air.
func (r *Result) Endures(m *Model) Endurance {
	way := m.Material.GivesWay()
	worst := Endurance{Strand: m.StartTemperature, Air: m.StartTemperature, Bears: way.Min, Yields: way.Max}
	worst.judge()
	for i := range m.Storage {
		z := &m.Storage[i]
		worst.meet(z.Name, z.Air.Temperature, z.Air.Temperature)
	}
	for i := range r.Zones {
		z := &r.Zones[i]
		worst.meet(z.Name, max(z.Hottest, z.Exit.Temperature), z.AirTemperature)
	}
	return worst
}

// Survives is the survival alone.
func (r *Result) Survives(m *Model) Survival { return r.Endures(m).Survival }

// AtRest tells whether a strand of a polymer survives a stay in air of a temperature [K].
func AtRest(p *materials.Polymer, air float64) Survival {
	way := p.GivesWay()
	e := Endurance{Strand: air, Air: air, Bears: way.Min, Yields: way.Max}
	e.judge()
	return e.Survival
}

// meet takes the place in, if it is worse than what was met before.
func (e *Endurance) meet(zone string, strand, air float64) {
	other := Endurance{Zone: zone, Strand: strand, Air: air, Bears: e.Bears, Yields: e.Yields}
	other.judge()
	switch {
	case other.Survival < e.Survival:
		return
	case other.Survival == e.Survival && (other.Strand < e.Strand || other.Strand == e.Strand && other.Air <= e.Air):
		return
	}
	*e = other
}

// hotter leaves out what no thermometer tells, such as round-off [K].
const hotter = 1e-3

func (e *Endurance) judge() { e.Survival = e.Excess().Survival() }

// Excess is how much too hot a place is [K]; below zero, how much there is to spare.
type Excess struct {
	Yield float64 // of the strand over the temperature above which it is all but sure to give way
	Bear  float64 // of the strand, or its air, over that up to which it holds
}

// Excess is that of the place that decides.
func (e Endurance) Excess() Excess {
	return Excess{Yield: e.Strand - e.Yields, Bear: max(e.Strand, e.Air) - e.Bears}
}

// Survival judges an excess.
func (x Excess) Survival() Survival {
	switch {
	case x.Yield > hotter:
		return Softens
	case x.Bear > hotter:
		return Doubtful
	}
	return Holds
}
