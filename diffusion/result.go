package diffusion

import (
	"slices"

	"strandry/diffusion/film"
	"strandry/materials/humidair"
)

// Result is what one march has found.
type Result struct {
	Start   State // as the strand sets off
	Zones   []ZoneResult
	Nozzle  State
	Radius  []float64 // nodes of the profile [m]
	Profile []float64 // moisture content there at the nozzle [kg/kg dry]

	Removed  float64 // share of the starting content that is gone; negative if it grew
	Balance  float64 // content at the end plus what left less content at the start, over the largest content on the way
	Steps    int     // accepted steps of the march
	Rejected int     // steps tried and not taken
	Nodes    int     // of the grid

	balances []airBalance // of each zone
	below    float64      // the most that was cut off a node of the profile to make it no less than zero [kg/kg dry]
}

// ZoneResult is what one march has found in one zone.
type ZoneResult struct {
	Name           string
	Length         float64 // [m]
	Residence      float64 // [s]
	Exit           State
	Hottest        float64           // mean temperature of the section where it is hottest in the zone [K]
	AirTemperature float64           // [K]
	VapourPressure float64           // of the air where it leaves, or as supplied without limit [Pa]
	AirActivity    float64           // water activity that the strand would reach in the air that it leaves, at the air's temperature
	Equilibrium    float64           // content that it would reach there [kg/kg dry]
	Supplied       float64           // content that it would reach in the air as supplied [kg/kg dry]
	Film           film.Coefficients // as used
	Biot           float64           // h R/k
	Resolved       bool              // temperature resolved along the radius
	Fourier        float64           // ∫ D dt/R² at the mean content, to 1e-4; of an assessment or a trace, else zero
	Contact        Contact           // what covers the strand
	Behind         float64           // content at the exit at the surface behind the middle of a cover that keeps its place, else the skin [kg/kg dry]
	Cooling        float64           // mean lowering of the strand's temperature by evaporation [K]: its heat over that of the film
}

func (r *Result) reset(m *Model) {
	*r = Result{Zones: r.Zones[:0], Radius: r.Radius[:0], Profile: r.Profile[:0], balances: r.balances[:0]}
	if cap(r.Zones) < len(m.Path) {
		r.Zones = make([]ZoneResult, 0, len(m.Path))
	}
}

// air fills in the air of the zone as the strand has left it: it is supplied at a vapour pressure, lost is
// the amount at the exit, given off the share of this zone.
func (z *ZoneResult) air(m *Model, a *surroundings, supplied, lost, givenOff, heat float64) {
	z.VapourPressure, _ = a.supply.vapour(lost)
	content := func(vapour float64) (activity, content float64) {
		activity = vapour / humidair.SaturationPressure(z.AirTemperature)
		return activity, m.Material.Sorption.Content(activity, z.AirTemperature)
	}
	z.AirActivity, z.Equilibrium = content(z.VapourPressure)
	_, z.Supplied = content(supplied)
	if a.supply.gain < 0 { // against the strand: it leaves at the entry
		z.VapourPressure, _ = a.supply.vapour(a.supply.entered)
	}
	// What leaves over a metre, 2π R² ρ q, over the surface of a metre, 2π R.
	flux := givenOff * m.Radius * m.Material.Density.Value / z.Residence
	z.Cooling = flux * humidair.LatentHeat(z.AirTemperature) / heat
}

func (r *Result) finish(l *strand) error {
	m, g, c := l.model, l.cylinder.Grid, l.cylinder.C
	r.Nozzle = l.state()
	for i := range c {
		r.Radius = append(r.Radius, g.Node(i)*m.Radius)
	}
	r.Profile, r.below = profile(r.Profile, c), max(0, -slices.Min(c))
	if r.Start.Mean > 0 {
		r.Removed = 1 - r.Nozzle.Mean/r.Start.Mean
	}
	left := 2 * l.cylinder.Lost
	scale := max(r.Start.Mean, 1e-12)
	for i := range r.Zones {
		scale = max(scale, r.Zones[i].Exit.Mean)
	}
	r.Balance = (r.Nozzle.Mean + left - r.Start.Mean) / scale
	r.Steps, r.Rejected, r.Nodes = l.cylinder.Stats.Steps, l.cylinder.Stats.Rejected, g.Len()
	return r.checkBelowZero(l.floor)
}

// Condenses tells that the air of a zone leaves above saturation, or against a strand so cold that it
// would give water back.
func (r *Result) Condenses(m *Model) bool {
	for i := range r.Zones {
		if w, damp := r.condensation(m, i); damp && w.Concern != Dew {
			return true
		}
	}
	return false
}

// condensation warns of water that condenses in the air of zone i, or on the strand.
func (r *Result) condensation(m *Model, i int) (w Warning, damp bool) {
	z, air := &r.Zones[i], m.Path[i].Air
	_, entering := m.Inflow(&m.Path[i])
	enters := r.Start.Temperature
	if i > 0 {
		enters = r.Zones[i-1].Exit.Temperature
	}
	met := entering // by the strand as it enters
	if air.Limited() && air.Direction != With {
		met = z.VapourPressure
	}
	saturation, cold := humidair.SaturationPressure(z.AirTemperature), humidair.SaturationPressure(enters)
	switch {
	case z.VapourPressure > saturation:
		return Warning{Concern: SaturatedAir, Zone: z.Name, Value: z.VapourPressure, Limit: saturation}, true
	case met > cold && entering <= cold && air.Limited() && air.Direction == Against:
		return Warning{Concern: CondensingAir, Zone: z.Name, Value: met, Limit: cold}, true
	case met > cold:
		return Warning{Concern: Dew, Zone: z.Name, Value: enters, Limit: humidair.DewPoint(met)}, true
	}
	return Warning{}, false
}
