package diffusion

import (
	"math"

	"strandry/materials"
	"strandry/materials/humidair"
)

// Concern names what a warning is about.
type Concern int

const (
	// DiffusivityRange: the data are extrapolated. Value is a temperature of the strand [K], Limit the
	// nearest end of the range of the data [K].
	DiffusivityRange Concern = iota
	// IsothermTemperature: as DiffusivityRange, for the sorption isotherm.
	IsothermTemperature
	// IsothermActivity: Value is the water activity of the air, Limit the nearest
	// end of the range of the data.
	IsothermActivity
	// HotterThanUsual: Value is the air temperature [K], Limit the highest usual
	// drying temperature [K].
	HotterThanUsual
	// AirSetsFloor: Value is the lowest content that the air of the best zone
	// allows [kg/kg dry], Limit the limit [kg/kg dry].
	AirSetsFloor
	// Evaporation: it cools the strand by Value on the mean, which the model counts, Limit the size
	// that is warned of [K].
	Evaporation
	// SaturatedAir: Value is its vapour pressure, Limit the saturation pressure at
	// its temperature [Pa].
	SaturatedAir
	// CondensingAir: it leaves against a strand so cold that it would give water
	// back. Value is its vapour pressure, Limit the saturation pressure at the temperature
	// at which the strand enters [Pa].
	CondensingAir
	// Dew: the strand enters below the dew point of the air that it meets. Value is the
	// temperature at which it enters, Limit the dew point [K].
	Dew
	// SupersaturatedStart: the strand sets off with Value, more than Limit, what it holds in saturated
	// air at the temperature at which it starts [kg/kg dry].
	SupersaturatedStart
	// UnmeasuredDiffusivity: the diffusivity rests on no measurement that was read.
	UnmeasuredDiffusivity
	// NumericalDoubt: Value is the numerical error of the central, the driest or the wettest content, Limit the distance from
	// there to the limit [kg/kg dry]: the error may change the verdict.
	NumericalDoubt
	// BoreMouths: with air without limit in the bores in which the strand drags its own, the nozzle would see Value;
	// Limit the limit [kg/kg dry].
	BoreMouths
	// FilmNote carries a note of the film correlation in Text.
	FilmNote
)

// Warning is a doubt about an answer. It is neither an error nor silence.
type Warning struct {
	Concern      Concern
	Zone         string // "" for the whole
	Value, Limit float64
	Text         string
}

// coolingWarned is the cooling by evaporation that is warned of [K].
const coolingWarned = 1

// warnings lists the doubts about an assessment.
func warnings(d *Design, a *Assessment) []Warning {
	var all []Warning
	add := func(c Concern, zone string, value, limit float64) {
		all = append(all, Warning{Concern: c, Zone: zone, Value: value, Limit: limit})
	}
	m, p := &d.Model, &d.Material
	floor := math.Inf(1)
	for i := range a.Zones {
		z := &a.Zones[i]
		floor = math.Min(floor, z.Supplied)
		if end, out := beyond(p.Diffusivity.Temperature, z.Exit.Temperature); out {
			add(DiffusivityRange, z.Name, z.Exit.Temperature, end)
		}
		if end, out := beyond(p.Sorption.Temperature, z.Exit.Temperature); out {
			add(IsothermTemperature, z.Name, z.Exit.Temperature, end)
		}
		for _, activity := range [...]float64{z.AirActivity, z.VapourPressure / humidair.SaturationPressure(z.AirTemperature)} {
			if end, out := beyond(p.Sorption.ActivityRange, activity); out {
				add(IsothermActivity, z.Name, activity, end)
				break
			}
		}
		if w, damp := a.condensation(m, i); damp {
			all = append(all, w)
		}
		if t := z.AirTemperature; t > p.DryingTemperature.Value {
			add(HotterThanUsual, z.Name, t, p.DryingTemperature.Value)
		}
		if math.Abs(z.Cooling) > coolingWarned {
			add(Evaporation, z.Name, z.Cooling, coolingWarned)
		}
		for _, note := range z.Film.Notes {
			all = append(all, Warning{Concern: FilmNote, Zone: z.Name, Text: note})
		}
	}
	if a.Mouths > 0 {
		add(BoreMouths, "", a.Mouths, d.Limit)
	}
	if most := p.Sorption.Content(1, m.StartTemperature); m.Start > most*(1+1e-9) {
		add(SupersaturatedStart, "", m.Start, most)
	}
	if floor > d.Limit && a.Nozzle.Mean > d.Limit {
		add(AirSetsFloor, "", floor, d.Limit)
	}
	if k := p.Diffusivity.ReferenceValue.Kind; k == materials.Memory || k == materials.PublishedWeak {
		add(UnmeasuredDiffusivity, "", 0, 0)
	}
	if distance := math.Abs(a.Nozzle.Mean - d.Limit); a.NumericallyUnsure || a.NumericalError > distance {
		add(NumericalDoubt, "", a.NumericalError, distance)
	}
	return all
}

// beyond gives the end of the range that x has passed by more than a thousandth of
// the range's width.
func beyond(r materials.Range, x float64) (end float64, out bool) {
	slack := (r.Max - r.Min) / 1000
	switch {
	case x < r.Min-slack:
		return r.Min, true
	case x > r.Max+slack:
		return r.Max, true
	}
	return x, false
}
