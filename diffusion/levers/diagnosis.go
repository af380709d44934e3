package levers

import "strandry/diffusion"

// Cause is what holds a design back.
type Cause int

const (
	// Nothing holds it back: it meets its limit.
	Nothing Cause = iota
	// Air: in the driest air of the path, as supplied, the strand could lie for ever and not meet
	// the limit.
	Air
	// Flow: as supplied the air would do, but the strand's own water makes it too moist.
	Flow
	// Rewetting: the strand met the limit, or would after an endless dryer, and takes up too much
	// after.
	Rewetting
	// Time: the air would do, the strand leaves too early.
	Time
)

func (c Cause) String() string { return [...]string{"nothing", "air", "flow", "rewetting", "time"}[c] }

// Diagnosis is a cause and the levers, the most helpful first.
type Diagnosis struct {
	Cause Cause
	// Floor is the lowest content that the air which the strand leaves in a zone allows [kg/kg dry],
	// in zone FloorZone; Supplied is the lowest that air as supplied allows.
	Floor     float64
	FloorZone string
	Supplied  float64
	// Lowest is the lowest mean content at the end of a zone [kg/kg dry], in zone
	// LowestZone; "" as the strand sets off.
	Lowest     float64
	LowestZone string
	// Endless is the content at the nozzle if zone DryerZone were endless [kg/kg dry], where that is why
	// the cause is Rewetting or Flow; else zero.
	Endless   float64
	DryerZone string
	Levers    []Lever // changes that keep the material
	Materials []Lever // other materials on the same path; both the driest for its limit first
}

// Diagnose tells what holds a design back, without levers.
func Diagnose(w *diffusion.March, m *diffusion.Model, a *diffusion.Assessment) Diagnosis {
	first := a.Zones[0]
	d := Diagnosis{
		Floor: first.Equilibrium, FloorZone: first.Name, Supplied: first.Supplied, Lowest: a.Start.Mean,
		DryerZone: m.Path[Dryer(m, &a.Result)].Name,
	}
	for _, z := range a.Zones {
		d.Supplied = min(d.Supplied, z.Supplied)
		if z.Equilibrium < d.Floor {
			d.Floor, d.FloorZone = z.Equilibrium, z.Name
		}
		if z.Exit.Mean < d.Lowest {
			d.Lowest, d.LowestZone = z.Exit.Mean, z.Name
		}
	}
	switch {
	case a.Nozzle.Mean <= m.Limit:
		d.Cause = Nothing
	case d.Lowest <= m.Limit:
		d.Cause = Rewetting
	case d.Floor > m.Limit && d.Supplied > m.Limit:
		d.Cause = Air
	case d.Floor > m.Limit:
		d.Cause = Flow
	default:
		d.endless(w, m, a)
	}
	return d
}

// endless tells whether time alone would do, by a march with a dryer that is not left too early.
func (d *Diagnosis) endless(w *diffusion.March, m *diffusion.Model, a *diffusion.Assessment) {
	const length = 1e4 // [m]
	varied, dryer := *m, Dryer(m, &a.Result)
	varied.Path = append([]diffusion.Zone(nil), m.Path...)
	varied.Path[dryer].Length = max(length, m.Path[dryer].Length)
	var r diffusion.Result
	d.Cause = Time
	if err := w.Run(&varied, a.Settings, &r); err != nil || r.Nozzle.Mean <= m.Limit {
		return
	}
	switch z := r.Zones[dryer]; {
	case z.Exit.Mean <= m.Limit:
		d.Endless, d.Cause = r.Nozzle.Mean, Rewetting
	case z.Equilibrium > m.Limit:
		d.Endless, d.Cause = r.Nozzle.Mean, Flow
	}
}

// Dryer is the zone that a design dries with: of those whose air, as supplied, brings the strand within
// its limit, that where diffusion comes furthest (greatest Fourier number); where the air of none does,
// that with the lowest equilibrium.
func Dryer(m *diffusion.Model, r *diffusion.Result) int {
	better := func(i, j int) bool {
		a, b := r.Zones[i], r.Zones[j]
		if a.Supplied == b.Supplied || a.Supplied <= m.Limit && b.Supplied <= m.Limit {
			return a.Fourier > b.Fourier
		}
		return a.Supplied < b.Supplied
	}
	best := 0
	for i := range m.Path {
		if better(i, best) {
			best = i
		}
	}
	return best
}
