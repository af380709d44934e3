package prove

import (
	"fmt"

	"strandry/diffusion"
)

// transit is the standard transit, given in full in testdata/transit: a strand of
// 1.75 mm at 2 mm/s through a warm guide, twelve metres of hot dry air and a
// guide in room air.
func transit() []Check {
	o := origin{"whole strand: standard transit",
		"CVODE (BDF, banded) on 320 and 640 cells, extrapolated; the BDF of scipy agrees to 3e-8 (independent codes)",
		Computed, promise()}
	covered := o
	covered.source = "the same; the printed numerical error must cover the true one"
	covered.tolerance = absolute(1, "true error over the one that is printed")
	s := diffusion.DefaultSettings()
	s.WithoutEvaporation = true // the standard transit leaves it out
	var out []Check
	for _, r := range []struct{ beta, want float64 }{{0, 2.345023e-3}, {20, 2.444867e-3}} {
		name := fmt.Sprintf("beta = %g", r.beta)
		out = append(out,
			o.check(name, "mean at the nozzle", "kg/kg", r.want, func() (float64, error) {
				var found diffusion.Result
				err := diffusion.NewMarch().Run(standard(r.beta), s, &found)
				return found.Nozzle.Mean, err
			}),
			covered.check(name, "error over printed", "-", 0, func() (float64, error) {
				d := diffusion.Design{Model: *standard(r.beta), Target: diffusion.Target{Limit: 0.002, NozzleTemperature: 500}}
				a, err := diffusion.NewMarch().Assess(&d, s)
				if err != nil {
					return 0, err
				}
				return (a.Nozzle.Mean - r.want) / a.NumericalError, nil
			}))
	}
	return out
}

func standard(beta float64) *diffusion.Model {
	p := polymer(0, 55e3, beta)
	p.Density, p.HeatCapacity = sure(1130), sure(1700)
	p.Diffusivity.Reference, p.Diffusivity.ReferenceValue, p.Diffusivity.Scatter = 296.15, sure(4e-13), sure(3)
	p.Sorption.Saturation = sure(0.095)
	zone := func(length, celsius, vapour float64) diffusion.Zone {
		return diffusion.Zone{
			Name: "zone", Length: length, Film: diffusion.Film{Heat: 25, Mass: 0.02},
			Air: diffusion.Air{Temperature: celsius + zeroCelsius, VapourPressure: vapour},
		}
	}
	m := model(p, 0.025, zone(0.5, 60, 400), zone(12, 110, 120), zone(0.6, 25, 1400))
	m.Speed, m.StartTemperature = 2e-3, 296.15
	return m
}
