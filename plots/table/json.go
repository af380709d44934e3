package table

import (
	"strandry/diffusion"
	"strandry/diffusion/advice"
)

func (a *Answer) json() any {
	m, r := a.Design, a.Assessment
	var zones []object
	for i := range r.Zones {
		zones = append(zones, zoneOf(&r.Zones[i], m.Path[i].Air.Held, r.ZoneErrors[i]))
	}
	return object{
		{"version", a.Version},
		{"title", a.Title},
		{"file", a.File},
		{"material", m.Material.ID},
		{"origin", m.Material.Origin}, // of the material: library, or the file that its values come from
		{"verdict", r.Verdict.String()},
		{"survives", r.Endurance.Survival.String()}, // holds, doubtful, softens
		{"heat", enduranceOf(r.Endurance)},
		{"moisture", moistureOf(m, r)},
		{"", limitWordsOf(m, &r.Odds)},
		{"steam_per_melt_volume", r.Steam},
		{"zones", zones},
		{"profile", object{{"radius", r.Radius}, {"moisture", r.Profile}}},
		{"conclusion", a.Conclusion()},
		{"cause", a.Diagnosis.Cause.String()},
		{"advice", each(a.Advice.Sets, func(s *advice.Set) object { return setOf(m, s) })}, // the smallest sets of changes with which it would be dry; empty where it is, or none was found
		{"nearest", nearestOf(m, &a.Advice)},                                               // the likeliest set where none would do; one at most
		filled("machine_untold", a.Untold),                                                 // why it cannot be told, where that is so
		{"machine", machineOf(a.Machine)},                                                  // what the dryer takes; null where nothing is stated of it
		{"checks", each(a.Checks, checkOf)},                                                // what was weighed at the machine beside what the model predicts
		{"warnings", a.Warnings()},
		{"unknowns", r.Unknowns}, // that the odds are drawn from, besides the limit
		{"assumptions", a.Assumed},
		{"unused_keys", a.Unused},
		{"sources", Sources(&m.Material)},
		{"cautions", Cautions(m)},
		{"settings", object{
			{"resolution", r.Settings.Resolution},
			{"tolerance", r.Settings.Tolerance},
			{"heat", r.Settings.Heat.String()},
			{"nodes", r.Nodes},
			{"steps", r.Steps},
			{"balance", r.Balance},
		}},
		{"strand", object{{"diameter", 2 * m.Radius}, {"speed", m.Speed}}},
	}
}

func moistureOf(m *diffusion.Design, r *diffusion.Assessment) object {
	return object{
		{"start", r.Start.Mean},
		{"mean", r.Nozzle.Mean},
		{"", oddsOf(&r.Odds)},
		{"centre", r.Nozzle.Centre},
		{"skin", r.Nozzle.Skin},
		{"", limitsOf(m)},
		{"removed", r.Removed},
		{"numerical_error", r.NumericalError}, // of the mean
		{"centre_error", r.Errors.Centre},
		{"skin_error", r.Errors.Skin},
		{"profile_error", r.Errors.Profile}, // the largest along the radius
		{"surrogate_error", r.Fit},          // of what the odds rest on, relative to the content
	}
}

// oddsOf is where the mean at the nozzle lies, and how likely within the limit.
func oddsOf(o *diffusion.Odds) object {
	return object{
		{"low", o.Low},   // 10 % point
		{"high", o.High}, // 90 % point
		{"by_diffusivity", object{{"low", o.ByDiffusivity.Low}, {"high", o.ByDiffusivity.High}}}, // if it alone were in doubt
		{"probability", o.Probability}, // of a mean within the limit
	}
}

func zoneOf(z *diffusion.ZoneResult, held float64, off diffusion.StateError) object {
	return object{
		{"name", z.Name},
		{"length", z.Length},
		{"residence", z.Residence},
		{"mean", z.Exit.Mean},
		{"centre", z.Exit.Centre},
		{"skin", z.Exit.Skin},      // in the mean round
		{"behind_cover", z.Behind}, // at the surface behind a cover that keeps its place; the skin where none does
		{"strand_temperature", z.Exit.Temperature},
		{"air_temperature", z.AirTemperature},
		{"air_activity", z.AirActivity},
		{"vapour_pressure", z.VapourPressure},
		filled("held_humidity", held), // relative, at any temperature of the zone
		{"equilibrium", z.Equilibrium},
		{"fourier", z.Fourier},
		{"biot", z.Biot},
		{"temperature_resolved", z.Resolved},
		{"h", z.Film.Heat},
		{"k_m", z.Film.Mass},
		{"correlation", z.Film.Correlation},
		{"contact", contactOf(z.Contact)},
		{"mean_error", off.Mean}, // numerical, as those below
		{"centre_error", off.Centre},
		{"skin_error", off.Skin},
	}
}
