package keeps

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"strandry/diffusion"
	"strandry/diffusion/parallel"
	"strandry/materials"
	"strandry/materials/humidair"
	"strandry/scenarios"
	"strandry/scenarios/studies/rest"
)

// Air is the air that dry strands lie in.
type Air struct {
	Temperature    float64 // [K]
	VapourPressure float64 // [Pa]
}

// Humidity is relative, over water or below 0 °C ice [-].
func (a Air) Humidity() float64 { return humidair.RelativeHumidity(a.VapourPressure, a.Temperature) }

// Answer is that for all materials.
type Answer struct {
	Air     Air               // in which the hours are counted
	Purpose materials.Purpose // of the limits, but for one that the scenario states
	Store   scenarios.Store
	Opening scenarios.Opening
	Radius  float64 // [m]
	Rows    []Row   // those that keep shortest first
}

// Row is one material in storage.
type Row struct {
	Material materials.Polymer
	Limit    float64            // [kg/kg dry]
	Survives diffusion.Survival // in the hotter of the air and the store

	Hours       rest.Time         // dry, in the air: until the mean passes the limit, at the medians of what is in doubt
	Reliable    rest.ReliableTime // and until when it is still within its limit nine times in ten
	Skin        float64           // content at the surface at Hours [kg/kg dry]
	SkinShare   float64           // share of the water in the outer tenth of the radius then [-]
	Equilibrium float64           // content that it comes to in the air [kg/kg dry]

	ForEver float64 // relative humidity, at the store's temperature, in which it stays within its limit; 1 for any
	Store   float64 // content that it comes to in the closed store [kg/kg dry]

	Gain                float64 // of the mean by one opening, at the medians [kg/kg dry]
	GainLow, GainHigh   float64 // 10 and 90 % points of it [kg/kg dry]
	GainNumericalError  float64 // half-width of the band that holds the true gain [kg/kg dry]
	InStore             float64 // content that it comes to with the openings of the scenario [kg/kg dry]
	Bearable            float64 // openings a day that keep it within its limit; 0 for none, infinite for any
	SlowestTimeConstant float64 // that keeps it so at the scenario's openings a day [s]; 0 for none, infinite for any
}

// Find answers for the materials, on all cores. The room of the scenario is what comes in
// through the open door.
func Find(ctx context.Context, s *scenarios.Scenario, air Air, all []materials.Polymer) (*Answer, error) {
	rows, err := parallel.Map(ctx, diffusion.Marches(len(all)), len(all), func(w *diffusion.March, i int) (Row, error) {
		r, err := row(w, s, air, &all[i])
		if err != nil {
			return r, fmt.Errorf("%s: %w", all[i].Label(), err)
		}
		return r, nil
	})
	if err != nil {
		return nil, err
	}
	out := &Answer{Air: air, Store: s.Store, Opening: s.Opening, Radius: s.Model.Radius, Purpose: s.Purpose, Rows: rows}
	slices.SortStableFunc(out.Rows, func(a, b Row) int { return cmp.Compare(a.order(), b.order()) })
	return out, nil
}

// order is the time, for ever after all others and there by what is missing to the limit.
func (r *Row) order() float64 {
	const ever = 1e12
	if r.Hours.Never {
		return ever * (1 + r.Limit/(r.Limit+r.Equilibrium))
	}
	return r.Hours.Seconds
}

// dry is a strand of the material that holds no water, in an air.
func dry(s *scenarios.Scenario, p *materials.Polymer, air Air) rest.State {
	m := s.Design
	own := p.Same(&m.Material)
	if !own {
		m.SetMaterial(p)
	}
	m.Given = s.DoubtsOf(own, false)
	m.Start, m.StartActivity, m.StartTemperature, m.Storage = 0, 0, air.Temperature, nil
	return rest.State{
		Design: m, Film: scenarios.StillAir(),
		Air: diffusion.Air{Temperature: air.Temperature, VapourPressure: air.VapourPressure},
	}
}

func row(w *diffusion.March, s *scenarios.Scenario, air Air, p *materials.Polymer) (Row, error) {
	state := dry(s, p, air)
	m := &state.Design
	r := Row{Material: m.Material, Limit: m.Limit, Equilibrium: state.Equilibrium()}
	r.Survives = diffusion.AtRest(&m.Material, max(air.Temperature, s.Store.Temperature))
	var err error
	if r.Hours, err = state.Wets(w, s.Settings); err != nil {
		return r, err
	}
	if r.Reliable, err = state.StaysReliably(w, r.Hours, s.Settings); err != nil {
		return r, err
	}
	if !r.Hours.Never {
		r.Skin = r.Hours.Result.Nozzle.Skin
		r.SkinShare = outerShare(r.Hours.Result.Radius, r.Hours.Result.Profile)
	}
	store := s.Store
	isotherm := m.Material.Sorption.At(store.Temperature)
	edge, _ := isotherm.Activity(m.Limit)
	r.ForEver = math.Min(1, edge)
	c := cycle{
		isotherm: isotherm, beta: m.Material.Diffusivity.Beta.Value, open: s.Opening.Duration,
		room: open(s) / humidair.SaturationPressure(store.Temperature), store: store.Humidity,
	}
	r.Store = isotherm.Content(c.store)
	r.InStore = c.inside(day/s.Opening.PerDay, s.Opening.TimeConstant)
	r.Bearable = c.bearable(s.Opening.TimeConstant, m.Limit)
	r.SlowestTimeConstant = c.slowestReturn(s.Opening.PerDay, m.Limit)
	return r, r.opening(w, s, m)
}

// open is the vapour pressure in the store with its door open [Pa].
func open(s *scenarios.Scenario) float64 {
	return min(s.Room.VapourPressure, humidair.SaturationPressure(s.Store.Temperature))
}

// outerTenth is where the skin begins, as a share of the radius.
const outerTenth = 0.9

// outerShare is the share of ∫ C r dr beyond nine tenths of the radius, by the trapezium rule
// on the graded nodes of the profile.
func outerShare(radius, content []float64) float64 {
	inner, whole := 0.0, 0.0
	begin := outerTenth * radius[len(radius)-1]
	before, at := 0.0, content[0] // on the axis
	for i, r := range radius {
		c := content[i]
		area := func(to, atTo float64) float64 { return (at + atTo) / 2 * (to*to - before*before) / 2 }
		whole += area(r, c)
		switch {
		case r <= begin:
			inner += area(r, c)
		case before < begin:
			inner += area(begin, at+(c-at)*(begin-before)/(r-before))
		}
		before, at = r, c
	}
	if whole <= 0 {
		return 0
	}
	return 1 - inner/whole
}
