package needed

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"

	"strandry/diffusion"
	"strandry/diffusion/parallel"
	"strandry/materials/text/strict"
	"strandry/scenarios"
	"strandry/scenarios/studies/size"
)

// Request is what is asked for.
type Request struct {
	Zone         int       // index in the path
	Temperatures []float64 // of its air [K], rising
	Speeds       []float64 // of the feed [m/s], rising
	Settings     diffusion.Settings
}

// Table is the lengths found.
type Table struct {
	Zone         string
	Temperatures []float64 // [K]
	Speeds       []float64 // [m/s]
	// Lengths[k][i] is that at Speeds[k] and Temperatures[i] [m]: 0 where none from size.Shortest to
	// size.Longest is enough or the strand softens on the shortest that is, size.Shortest where the strand needs none
	// of the zone.
	Lengths [][]float64
	// Unanswered is how many of them are 0 since no march could be made, the first of them for this Reason.
	Unanswered int
	Reason     string
	// At the scenario's own speed, Speeds[Own]; Own is -1 where that is none of them.
	Own int
	// NineInTen and OneInTen are the lengths at Temperatures from which on the limit is met nine times and one time in ten [m]; 0 where that is not known or far beyond what can be built,
	// size.Shortest where none is needed.
	NineInTen, OneInTen []float64
	// Residual is the least content at the nozzle that any length leaves, where none is enough; zero elsewhere [kg/kg dry].
	Residual []Residual
}

// Residual is a content at the nozzle at the medians of what is in doubt, and its 10 and 90 % points; those are zero where they are not known [kg/kg dry].
type Residual struct{ Mean, Low, High float64 }

// Around is how many times faster or slower than the scenario's own feed the figures go, on lines as on maps: beyond that a map has little room for what can be built, and
// the ends of its axis say little.
const Around = 4

// Usual asks for a zone of the path from fifty kelvins below the material's usual highest drying
// temperature, though not below the room's, to twenty above, and for speeds from
// a quarter of the scenario's to four times it, each twice the one before.
func Usual(s *scenarios.Scenario, zone int) Request {
	m := &s.Design
	r := Request{Zone: zone, Settings: diffusion.CoarseSettings()}
	heat := m.Material.DryingTemperature.Value
	for t := heat - 50; t <= heat+20.5; t += 5 {
		if t > s.Room.Temperature {
			r.Temperatures = append(r.Temperatures, t)
		}
	}
	for factor := 1.0 / Around; factor <= Around; factor *= 2 {
		r.Speeds = append(r.Speeds, factor*m.Speed)
	}
	return r
}

// Find answers a request, on all cores. A temperature at which the scenario's air cannot be, such as one below its
// dew point, has no length, and neither has a place where the march has no answer. It is an error if that holds
// for all of them.
func Find(ctx context.Context, s *scenarios.Scenario, r Request) (*Table, error) {
	t := &Table{Temperatures: r.Temperatures, Speeds: r.Speeds, Own: slices.Index(r.Speeds, s.Model.Speed)}
	designs, err := r.designs(s)
	if err != nil {
		return nil, err
	}
	t.Zone = s.Model.Path[r.Zone].Name
	n := len(r.Temperatures)
	type answer struct {
		place
		failed error
	}
	all, err := parallel.Map(ctx, diffusion.Marches(len(r.Speeds)*n), len(r.Speeds)*n, func(w *diffusion.March, job int) (a answer, _ error) {
		k, i := job/n, job%n
		if designs[i] == nil {
			return a, nil
		}
		m := *designs[i]
		m.Speed = r.Speeds[k]
		if a.place, a.failed = shortest(w, &m, r.Zone, r.Settings); a.failed != nil {
			a.failed = fmt.Errorf("%.4g mm/s at %.4g °C: %w", 1000*m.Speed, r.Temperatures[i]-273.15, a.failed)
		}
		return a, nil
	})
	if err != nil {
		return nil, err
	}
	for k := range r.Speeds {
		row := make([]float64, n)
		for i, a := range all[k*n : (k+1)*n] {
			if row[i] = a.length; a.failed != nil {
				t.Unanswered++
				err = cmp.Or(err, a.failed)
			}
		}
		t.Lengths = append(t.Lengths, row)
	}
	if t.Unanswered == len(all) {
		return nil, err
	}
	if err != nil {
		t.Reason = err.Error()
	}
	if t.Own < 0 {
		return t, nil
	}
	own := make([]place, n)
	for i, a := range all[t.Own*n : (t.Own+1)*n] {
		own[i] = a.place
	}
	return t, t.doubt(ctx, &r, designs, own, s.Build.Longest)
}

// designs makes the design at each temperature; nil where the air cannot be.
func (r Request) designs(s *scenarios.Scenario) ([]*diffusion.Design, error) {
	if r.Zone < 0 || r.Zone >= len(s.Model.Path) || len(r.Temperatures) == 0 || len(r.Speeds) == 0 {
		return nil, errors.New("lengths over temperature and feed: a zone of the path, temperatures and speeds are needed")
	}
	name := s.ZoneKey(r.Zone, "temperature")
	key, ok := s.Key(name)
	if !ok {
		return nil, fmt.Errorf("lengths over temperature and feed: the scenario has no %s", name)
	}
	designs, some := make([]*diffusion.Design, len(r.Temperatures)), false
	var last error
	for i, t := range r.Temperatures {
		const digits = 12
		varied, err := s.With(key.Setting(t, digits))
		var refused strict.Faults
		switch {
		case err == nil:
			designs[i], some = &varied.Design, true
		case errors.As(err, &refused):
			last = err
		default:
			return nil, err
		}
	}
	if !some {
		return nil, last
	}
	return designs, nil
}

// place is what was found at one temperature and speed.
type place struct {
	length  float64 // that meets the limit [m]; 0 where there is none
	nearest float64 // where there is none: that comes nearest to it [m]; 0 where the strand softens on the one there is
	least   float64 // content at the nozzle there [kg/kg dry]
}

// shortest is the least length of the zone that meets the limit.
func shortest(w *diffusion.March, m *diffusion.Design, zone int, s diffusion.Settings) (place, error) {
	found, err := size.ShortestOf(w, m, zone, s)
	switch {
	case err != nil:
		return place{}, err
	case found.Outcome == size.Nowhere:
		return place{nearest: found.Value, least: found.Ratio * m.Limit}, nil
	}
	if found.Survives == diffusion.Softens {
		return place{}, nil
	}
	if found.None() {
		return place{length: size.Shortest}, nil
	}
	return place{length: found.Value}, nil
}

// with is the model with another length of a zone [m].
func with(m *diffusion.Design, zone int, length float64) *diffusion.Design {
	varied := *m
	varied.Path = slices.Clone(m.Path)
	varied.Path[zone].Length = length
	return &varied
}
