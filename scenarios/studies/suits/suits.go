package suits

import (
	"cmp"
	"context"
	"math"
	"slices"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/diffusion/parallel"
	"strandry/materials"
	"strandry/materials/humidair"
	"strandry/scenarios"
	"strandry/scenarios/studies/rest"
	"strandry/scenarios/studies/size"
)

// Answer is that for all materials.
type Answer struct {
	Zone     string            // whose length is sought: that the design dries with
	Length   float64           // that it has in the scenario [m]
	Speed    float64           // of the feed [m/s]
	Purpose  materials.Purpose // of the limits, but for one that the scenario states
	Longest  float64           // that can be built [m]
	RoomTime float64           // that the strand of the second view has lain in the room [s]
	Held     []string          // zones whose humidity is held, whatever their temperature
	Soaked   []Row             // first view, in the order in which it is shown
	Opened   []Row             // second view, the same
}

// Row is one material on this dryer.
type Row struct {
	Material materials.Polymer
	Class    Class
	Limit    float64 // [kg/kg dry]
	Start    float64 // mean content as it sets off [kg/kg dry]
	Heated   float64 // temperature of the heated zones [K]; that of the air where none is heated
	Floor    float64 // content that the strand would come to in the air of the zone [kg/kg dry]

	// The path as it is.
	Verdict        diffusion.Verdict
	Survives       diffusion.Survival
	Mean           float64 // at the nozzle, at the medians of what is in doubt [kg/kg dry]
	NumericalError float64 // of Mean [kg/kg dry]
	Odds           diffusion.Odds

	// The shortest length of the zone that meets the limit at the medians, and from which on it is met nine times in
	// ten; dwell is length over speed.
	Needed   size.Length
	Reliable size.ReliableLength
	Obstacle advice.Cause // where no length will do at the medians
	Failed   string       // why there is no answer; "" where there is one

	// The same strand at rest in the same air: until it meets its limit at the medians, and nine times in ten.
	Rest         rest.Time
	RestReliable rest.ReliableTime
}

// Class is the group that a material falls into.
type Class int

const (
	// AsItIs needs no drying at the medians: it sets off within its limit.
	AsItIs Class = iota
	// Buildable is a length, at the medians, no longer than can be built.
	Buildable
	// TooLong is any other length.
	TooLong
	// Unanswered is what has no answer on this path: Failed says why.
	Unanswered
	// Forbidden is what no length of the zone dries: the air keeps the strand above its limit
	// or wets it again, or the strand softens.
	Forbidden
)

func (c Class) String() string {
	return [...]string{"within its limit as it is", "buildable", "too long", "no answer", "no length will do"}[c]
}

// Find answers for the materials, on all cores, in the order of the classes and there of the length
// needed. roomTime is the time that the strand of the second view has lain in the room [s].
func Find(ctx context.Context, s *scenarios.Scenario, all []materials.Polymer, roomTime float64) (*Answer, error) {
	asDrawn, err := diffusion.NewMarch().Trace(&s.Model, s.Settings) // which has the Fourier numbers
	if err != nil {
		return nil, err
	}
	d := dryer{scenario: s, zone: advice.Dryer(&s.Design, &asDrawn.Result)}
	z := s.Model.Path[d.zone]
	d.longest = s.LongestOf(d.zone)
	out := &Answer{Zone: z.Name, Length: z.Length, Speed: s.Model.Speed, Longest: d.longest, RoomTime: roomTime, Held: s.Model.Held(), Purpose: s.Purpose}
	rows, err := parallel.Map(ctx, diffusion.Marches(len(all)), len(all), func(w *diffusion.March, i int) ([2]Row, error) {
		var views [2]Row
		var soaked known
		for k, roomTime := range [2]float64{0, roomTime} {
			r, err := d.row(w, &all[i], roomTime, &soaked)
			if err != nil {
				none := size.Length{Outcome: size.Nowhere}
				r = Row{Material: r.Material, Limit: r.Limit, Heated: r.Heated, Class: Unanswered, Failed: err.Error(), Needed: none, Reliable: size.ReliableLength{Outcome: size.Nowhere}}
			}
			views[k] = r
		}
		return views, nil
	})
	if err != nil {
		return nil, err
	}
	for _, views := range rows {
		out.Soaked, out.Opened = append(out.Soaked, views[0]), append(out.Opened, views[1])
	}
	order(out.Soaked)
	order(out.Opened)
	return out, nil
}

// dryer is the path that the materials are set against.
type dryer struct {
	scenario *scenarios.Scenario
	zone     int
	longest  float64 // of that zone that can be built [m]
}

// Design is the scenario with another material on its path; roomTime is the time that it has lain dry in
// the room before [s], zero for a strand in equilibrium with the room.
func Design(s *scenarios.Scenario, p *materials.Polymer, roomTime float64) *diffusion.Design {
	m, room := s.Design, s.Room
	own := p.Same(&m.Material)
	if !own {
		m.SetMaterial(p)
	}
	m.Given = s.DoubtsOf(own, true)
	m.StartTemperature, m.Storage = room.Temperature, nil
	m.Path = slices.Clone(m.Path)
	advice.Reheat(&m, room.Temperature)
	if roomTime > 0 {
		m.Start, m.StartActivity = 0, 0
		m.Storage = []diffusion.Zone{{
			Name: "room", Duration: roomTime, Film: scenarios.StillAir(),
			Air: diffusion.Air{Temperature: room.Temperature, VapourPressure: room.VapourPressure},
		}}
		return &m
	}
	m.StartActivity = room.VapourPressure / humidair.SaturationPressure(room.Temperature)
	m.Start = p.Sorption.Content(m.StartActivity, room.Temperature)
	return &m
}

// known are the odds of a material, on the path and at rest, from which those of another view of it are found; nil where they are not known.
type known struct{ path, rest *diffusion.Odds }

// row finds out all about one material, and keeps its odds where none are known.
func (d *dryer) row(w *diffusion.March, p *materials.Polymer, roomTime float64, k *known) (Row, error) {
	m := Design(d.scenario, p, roomTime)
	n, zone := d.scenario.Settings, m.Path[d.zone]
	r := Row{Material: m.Material, Limit: m.Limit, Heated: zone.Air.Temperature}
	air := diffusion.Air{Temperature: zone.Air.Temperature, VapourPressure: zone.Air.VapourPressure}
	a, err := w.AssessBriefly(k.path, m, n)
	if err != nil {
		return r, err
	}
	k.path = cmp.Or(k.path, &a.Odds)
	r.Start, r.Verdict, r.Survives = a.Start.Mean, a.Verdict, a.Endurance.Survival
	r.Mean, r.NumericalError, r.Odds = a.Nozzle.Mean, a.NumericalError, a.Odds
	resting := rest.State{Design: *m, Air: air, Film: scenarios.StillAir()}
	resting.Given = d.scenario.DoubtsOf(p.Same(&d.scenario.Model.Material), false)
	r.Floor = resting.Equilibrium()
	if r.Needed, err = size.ShortestOf(w, m, d.zone, n); err != nil {
		return r, err
	}
	r.classify(d.longest)
	if r.Survives == diffusion.Softens {
		r.Obstacle, r.Needed = advice.Softening, size.Length{Outcome: size.Nowhere, Ratio: r.Needed.Ratio}
	} else if r.Class == Forbidden {
		r.Obstacle = advice.Hindrance(w, m, a, d.zone)
	}
	if r.Reliable, err = size.ReliableOf(w, m, d.zone, r.Needed, &a.Odds, far*d.longest, n); err != nil {
		return r, err
	}
	if r.Rest, err = resting.Dries(w, n); err != nil {
		return r, err
	}
	r.RestReliable, err = resting.DriesReliably(w, r.Rest, k.rest, n)
	k.rest = cmp.Or(k.rest, r.RestReliable.Odds)
	return r, err
}

// far beyond what can be built, how long exactly is of no use.
const far = 1.5

func (r *Row) classify(longest float64) {
	switch {
	case r.Survives == diffusion.Softens:
		r.Class = Forbidden
	case r.Start <= r.Limit:
		r.Class = AsItIs
	case r.Needed.Outcome == size.Nowhere:
		r.Class = Forbidden
	case r.Length() <= longest:
		r.Class = Buildable
	default:
		r.Class = TooLong
	}
}

// Length is the shortest length that meets the limit at the medians [m]; zero
// where none is needed, infinite where none does.
func (r *Row) Length() float64 { return Needed(r.Needed) }

// Needed is a length that was sought as a number [m]: zero where none is needed, infinite where none
// does.
func Needed(l size.Length) float64 {
	switch {
	case l.None():
		return 0
	case l.Outcome == size.Met:
		return l.Value
	}
	return math.Inf(1)
}

// ReliableWithin tells whether the limit is met nine times in ten by a length that can be built, and the strand holds.
func (r *Row) ReliableWithin(longest float64) bool {
	return r.Class != Unanswered && r.Survives != diffusion.Softens && r.Reliable.Outcome != size.Nowhere &&
		(r.Reliable.Outcome == size.Everywhere || r.Reliable.Value <= longest)
}

// order sorts rows by class, then by the length needed, or, where there is none, by what
// is left over the limit.
func order(rows []Row) {
	rank := func(r *Row) float64 {
		switch r.Class {
		case AsItIs:
			return r.Start / r.Limit
		case Forbidden:
			return r.Needed.Ratio
		}
		return r.Length()
	}
	slices.SortStableFunc(rows, func(a, b Row) int {
		if a.Class != b.Class {
			return int(a.Class) - int(b.Class)
		}
		switch x, y := rank(&a), rank(&b); {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
}
