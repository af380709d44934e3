package advice

import (
	"cmp"
	"slices"

	"strandry/diffusion"
)

// Cause is what holds a design back.
type Cause int

const (
	// Nothing holds it back: it meets its limit.
	Nothing Cause = iota
	// Air: in the driest air of the path, as supplied, the strand could lie for ever and not meet
	// the limit.
	Air
	// Flow: as supplied the air would do, but it is too little for the strand's own water.
	Flow
	// Rewetting: the strand meets the limit on the way, or would after endless drying, and takes up too
	// much after.
	Rewetting
	// Time: the air would do, the strand leaves too early.
	Time
	// Softening: it meets its limit, but the strand softens on its way.
	Softening
)

func (c Cause) String() string {
	return [...]string{"nothing", "air", "flow", "rewetting", "time", "softening"}[c]
}

// Diagnosis is a cause and what it was found from.
type Diagnosis struct {
	Cause Cause
	// Floor is the lowest content that the air as supplied allows [kg/kg dry], in zone FloorZone.
	Floor       float64
	FloorZone   string
	FloorWithin float64 // probability that it is within the limit, where the cause is Air
	// Lowest is the lowest mean content at the end of a zone [kg/kg dry], in zone
	// LowestZone; "" as the strand sets off.
	Lowest     float64
	LowestZone string
	// Endless is the content at the nozzle after endless drying [kg/kg dry], where that is why the cause is
	// Rewetting or, zero if no march tells it, Flow.
	Endless float64
	// Dryer is the index of the zone that dries: that of [Dryer], or another whose length alone would do.
	Dryer int
}

// Diagnose tells what holds a design back, at the medians of what is in doubt.
func Diagnose(w *diffusion.March, m *diffusion.Design, a *diffusion.Assessment) Diagnosis {
	first := a.Zones[0]
	floor := first
	d := Diagnosis{Floor: first.Supplied, FloorZone: first.Name, Lowest: a.Start.Mean, Dryer: Dryer(m, &a.Result)}
	for _, z := range a.Zones {
		if z.Supplied < d.Floor {
			d.Floor, d.FloorZone, floor = z.Supplied, z.Name, z
		}
		if z.Exit.Mean < d.Lowest {
			d.Lowest, d.LowestZone = z.Exit.Mean, z.Name
		}
	}
	e := longDrying{march: w, design: m, settings: a.Settings.Coarser(), zones: a.Zones}
	switch {
	case a.Nozzle.Mean <= m.Limit && a.Endurance.Survival == diffusion.Softens:
		d.Cause = Softening
	case a.Nozzle.Mean <= m.Limit:
		d.Cause = Nothing
	case d.Lowest <= m.Limit:
		d.Cause = Rewetting
	case d.Floor > m.Limit:
		d.Cause = Air
		if len(m.Storage) > 0 && e.dips(d.Dryer) {
			d.Cause = Time
		}
		d.FloorWithin = w.Rests(m, m.Material.Sorption.Activity(d.Floor, floor.AirTemperature), floor.AirTemperature)
	default:
		d.Cause, d.Dryer, d.Endless = e.cause(d.Dryer)
		if d.Cause == Flow && d.Endless > a.Start.Mean {
			d.Endless = 0 // no answer: air that dries leaves no more than there was
		}
	}
	return d
}

// Hindrance tells why no length of a zone meets the limit: Air, Flow or Rewetting.
func Hindrance(w *diffusion.March, m *diffusion.Design, a *diffusion.Assessment, zone int) Cause {
	e := longDrying{march: w, design: m, settings: a.Settings.Coarser(), zones: a.Zones}
	if a.Zones[zone].Supplied > m.Limit {
		return Air
	}
	if mean, ok := e.run(func(i int) bool { return i == zone }, true); ok && mean > m.Limit {
		return Rewetting
	}
	return Flow
}

// longDrying tries how far drying without end would bring a design.
type longDrying struct {
	march    *diffusion.March
	design   *diffusion.Design
	settings diffusion.Settings
	zones    []diffusion.ZoneResult
	result   diffusion.Result
}

// cause is Time where the length of one zone, or of all that are dry enough, would do; else Flow if air without
// limit would, else Rewetting. content is what is left, zero where no march tells it.
func (e *longDrying) cause(dryer int) (c Cause, zone int, content float64) {
	limit := e.design.Limit
	dry := func(i int) bool { return e.zones[i].Supplied <= limit }
	for _, i := range e.tried(dryer) {
		mean, ok := e.run(func(k int) bool { return k == i }, false)
		if ok && mean <= limit {
			return Time, i, 0
		}
		if ok && i == dryer {
			content = mean
		}
	}
	if mean, ok := e.run(dry, false); ok && mean <= limit {
		return Time, dryer, 0
	}
	if mean, ok := e.run(dry, true); ok && mean > limit {
		return Rewetting, dryer, mean
	}
	return Flow, dryer, content
}

// tried are the zones whose length may do alone: the dryer and then the others in the order of the path, of a path of thousands
// those of the driest air.
func (e *longDrying) tried(dryer int) []int {
	const most = 20
	order := make([]int, 0, len(e.zones))
	for i := range e.zones {
		if i != dryer {
			order = append(order, i)
		}
	}
	if len(order) > most {
		slices.SortStableFunc(order, func(i, k int) int { return cmp.Compare(e.zones[i].Supplied, e.zones[k].Supplied) })
		order = order[:most]
		slices.Sort(order)
	}
	return slices.Insert(order, 0, dryer)
}

// run marches with some zones long enough for all that they can do, on request with air without limit
// everywhere. ok is false where no such length has an answer.
func (e *longDrying) run(long func(zone int) bool, unlimited bool) (mean float64, ok bool) {
	for _, length := range [...]float64{1e4, 3e3, 1e3, 300, 100, 30} { // [m]
		m := *e.design
		m.Path = slices.Clone(m.Path)
		for i := range m.Path {
			if long(i) {
				z := &m.Path[i]
				z.Extend(max(length*each(z), z.Extent()))
			}
			if unlimited {
				m.Path[i].Air = m.Path[i].Air.WithoutLimit()
			}
		}
		if e.march.Run(&m.Model, e.settings, &e.result) == nil {
			return e.result.Nozzle.Mean, true
		}
	}
	return 0, false
}

// each is what stands for a metre of a zone: a metre, or where it has a duration, the time for one at a millimetre a second.
func each(z *diffusion.Zone) float64 {
	if z.Duration > 0 {
		return 1e3 // [s]
	}
	return 1 // [m]
}

// dips tells whether some length of a zone meets the limit though its air would not for ever: a wet skin dries
// before it has wetted the core.
func (e *longDrying) dips(zone int) bool {
	var lengths []float64
	for x := 1e-3; x < 1e4; x *= 1.5 {
		lengths = append(lengths, x*each(&e.design.Path[zone]))
	}
	met := false
	err := e.march.RunLengths(&e.design.Model, zone, lengths, e.settings, func(_ int, r *diffusion.Result) error {
		met = met || r.Nozzle.Mean <= e.design.Limit
		return nil
	})
	return err == nil && met
}
