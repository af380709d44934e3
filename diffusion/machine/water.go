package machine

import (
	"math"

	"strandry/diffusion"
	"strandry/diffusion/machine/airstream"
	"strandry/diffusion/root"
	"strandry/materials/humidair"
)

// water tells the balance of water of the air of zone i.
func (m *Machine) water(d *diffusion.Design, r *diffusion.Result, i int, h *Housed) {
	z, w := &d.Path[i], &h.Water
	w.Strands = float64(max(1, z.Air.Strands))
	before := r.Start.Mean
	if i > 0 {
		before = r.Zones[i-1].Exit.Mean
	}
	w.Given = w.Strands * oneFlow(d) * (before - r.Zones[i].Exit.Mean)
	dry := d.DryFlow(z)
	if dry == 0 {
		return
	}
	p := d.AirPressure()
	total, _ := d.Inflow(z)
	w.Limited = true
	w.Flow = dry * humidair.DryAirConstant * m.Room.Temperature / (p - z.Air.VapourPressure)
	w.Supply = airstream.Stream{Dry: dry, Ratio: humidair.HumidityRatio(z.Air.VapourPressure, p), Temperature: m.Room.Temperature}
	if m.Chambers[i].Source.overDesiccant() {
		w.Supply.Temperature = m.Bed.Temperature
	}
	if leak := total - dry; z.Air.Leak > 0 {
		w.Leak = airstream.Stream{Dry: leak, Ratio: humidair.HumidityRatio(z.Air.LeakOf, p), Temperature: m.Room.Temperature}
	}
	w.Out = airstream.Stream{Dry: total, Ratio: humidair.HumidityRatio(r.Zones[i].VapourPressure, p), Temperature: z.Air.Temperature}
	in, out := w.Brought(), w.Out.Water()
	if most := max(in, math.Abs(w.Given), out); most > 0 { // else there is no water at all
		w.Residual = (in + w.Given - out) / most
	}
}

// What a flow of air is searched by: what is lost of that which air without limit would do.
const (
	hardly = 0.05 // beyond this more air gains little
	half   = 0.5  // below this the air itself is the limit
	span   = 1e4  // of the flows that are tried, over and under the one that is stated
)

// flows tells, of each chamber that dries in limited air, the flow beyond which more gains little, and the one below which the air itself is the limit. Each is found by rough
// marches in which a cover goes round the strand, so that they are quick: 10 % or so.
func (m *Machine) flows(march *diffusion.March, d *diffusion.Design, r *diffusion.Result, a *Answer) {
	for i := range d.Path {
		z, w := &d.Path[i], &a.Chambers[i].Water
		if !w.Limited || w.Given <= 0 || z.Air.VolumeFlow <= 0 {
			continue
		}
		s := newSearch(march, d, r, i)
		if s == nil {
			continue
		}
		w.Searched = true
		w.Enough = s.flow(hardly)
		w.Least = s.flow(half)
	}
}

// search looks for a flow of air through one zone.
type search struct {
	march      *diffusion.March
	model      diffusion.Model // up to that zone
	zone       int
	stated     float64             // flow [m³/s]
	dry, moist float64             // content behind the zone in air without limit, and before it [kg/kg dry]
	known      map[float64]float64 // what is lost at the flows that were tried
}

// newSearch is one for zone i; nil where there is nothing to look for.
func newSearch(march *diffusion.March, d *diffusion.Design, r *diffusion.Result, i int) *search {
	s := &search{march: march, model: d.Model, zone: i, stated: d.Path[i].Air.VolumeFlow, known: map[float64]float64{}}
	s.model.Path = append([]diffusion.Zone(nil), d.Path[:i+1]...)
	for k := range s.model.Path {
		if c := &s.model.Path[k].Contact; c.Covered > 0 {
			c.Moves = true
		}
	}
	air := s.model.Path[i].Air
	limited := air
	s.model.Path[i].Air = air.WithoutLimit()
	dry, ok := s.content()
	s.model.Path[i].Air = limited
	before := r.Start.Mean
	if i > 0 {
		before = r.Zones[i-1].Exit.Mean
	}
	if !ok || !(before > dry) {
		return nil
	}
	s.dry, s.moist = dry, before
	return s
}

// content is the mean behind the zone [kg/kg dry]; ok is false where there is no answer, as in far too little air.
func (s *search) content() (content float64, ok bool) {
	var found diffusion.Result
	if err := s.march.Run(&s.model, diffusion.RoughSettings(), &found); err != nil {
		return 0, false
	}
	return found.Zones[s.zone].Exit.Mean, true
}

// lost is the share of what air without limit would do that a flow [m³/s] does not do.
func (s *search) lost(flow float64) float64 {
	lost, known := s.known[flow]
	if known {
		return lost
	}
	s.model.Path[s.zone].Air.VolumeFlow, lost = flow, 1
	if content, ok := s.content(); ok {
		lost = (content - s.dry) / (s.moist - s.dry)
	}
	s.known[flow] = lost
	return lost
}

// flow is the one at which a share is lost [m³/s]; zero where it lies beyond what is tried.
func (s *search) flow(share float64) float64 {
	const factor = 4
	f := func(logarithm float64) (float64, error) { return s.lost(math.Exp(logarithm)) - share, nil }
	low, high := math.Log(s.stated), math.Log(s.stated)
	atLow, _ := f(low)
	atHigh := atLow
	for step := 1.0; atLow < 0 && step < span; step *= factor { // more is lost with less air
		high, atHigh = low, atLow
		low -= math.Log(factor)
		atLow, _ = f(low)
	}
	for step := 1.0; atHigh > 0 && step < span; step *= factor {
		low, atLow = high, atHigh
		high += math.Log(factor)
		atHigh, _ = f(high)
	}
	if !(atLow >= 0 && atHigh <= 0) {
		return 0
	}
	if low == high { // as stated, to the bit
		return s.stated
	}
	return rootOf(f, root.Bracket{A: low, B: high, AtA: atLow, AtB: atHigh})
}

// rootOf is where a function of a logarithm is zero, to 2 %; zero where it has no answer.
func rootOf(f func(logarithm float64) (float64, error), b root.Bracket) float64 {
	const within = 0.02
	x, err := root.Find(f, b, root.Tolerance{Width: within})
	if err != nil {
		return 0
	}
	return math.Exp(x)
}
