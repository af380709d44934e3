package diffusion

import (
	"fmt"
	"math"
	"slices"

	"strandry/diffusion/film"
	"strandry/materials/humidair"
)

// Limited tells whether the air of a zone takes up what the strand gives.
func (a Air) Limited() bool { return a.DryFlow > 0 || a.VolumeFlow > 0 || a.Blown || a.Dragged }

// Balanced tells whether the air of a zone has to agree with what the strand gives off on all of it: it is limited, and does not run with the strand.
func (a Air) Balanced() bool { return a.Limited() && a.Direction != With }

// WithoutLimit is the same air, but so much of it that what the strand gives does not change it.
func (a Air) WithoutLimit() Air {
	a.DryFlow, a.VolumeFlow, a.MeteredAt, a.Blown, a.Dragged, a.Strands, a.Leak, a.LeakOf = 0, 0, 0, false, false, 0, 0, 0
	return a
}

// DryFlow is the mass flow of dry air through a zone [kg/s]: as given; what is left of a volume or of what its speed
// carries through a bore without the vapour, as supplied; or what the strand drags along through its bore, at the air's
// temperature and vapour pressure as supplied. It is zero for air without limit.
func (m *Model) DryFlow(z *Zone) float64 {
	switch a := &z.Air; {
	case a.Dragged:
		return m.dryDensity(a, a.Temperature) * film.DraggedFlow(m.Speed, 2*m.Radius, z.Film.Bore)
	case a.Blown:
		return m.dryDensity(a, a.Temperature) * z.Film.AirSpeed * m.ring(z)
	case a.VolumeFlow > 0:
		return m.dryDensity(a, a.MeteredAt) * a.VolumeFlow
	}
	return z.Air.DryFlow
}

// Inflow is all the air that enters a zone and mixes there before it meets the strand: what is supplied and what leaks in. It gives the flow of dry
// air [kg/s] and the vapour pressure of the mixture [Pa], whose humidity ratio is the mean of both by their dry flows. Zero and the vapour pressure
// as supplied for air without limit.
func (m *Model) Inflow(z *Zone) (dry, vapourPressure float64) {
	a, p := &z.Air, m.AirPressure()
	dry = m.DryFlow(z)
	if dry == 0 || a.Leak == 0 {
		return dry, a.VapourPressure
	}
	leak := a.Leak * (p - a.LeakOf) / (humidair.DryAirConstant * a.MeteredAt)
	ratio := (dry*humidair.HumidityRatio(a.VapourPressure, p) + leak*humidair.HumidityRatio(a.LeakOf, p)) / (dry + leak)
	return dry + leak, humidair.VapourPressureOf(ratio, p)
}

// dryDensity is that of the dry share of air at a temperature [K], over the whole volume [kg/m³].
func (m *Model) dryDensity(a *Air, temperature float64) float64 {
	return (m.AirPressure() - a.VapourPressure) / (humidair.DryAirConstant * temperature)
}

// ring is the section between strand and bore [m²], zero where there is none.
func (m *Model) ring(z *Zone) float64 {
	return max(0, math.Pi/4*(z.Film.Bore*z.Film.Bore-4*m.Radius*m.Radius))
}

// AirSpeed is the speed of the air past the strand [m/s]: as given; else, in a bore, what the flow makes it, at
// the zone's temperature.
func (m *Model) AirSpeed(z *Zone) float64 {
	switch ring := m.ring(z); {
	case z.Air.Dragged:
		return film.DraggedSpeed(m.Speed, 2*m.Radius, z.Film.Bore)
	case z.Film.AirSpeed == 0 && z.Film.Flow == film.Annulus && z.Air.Limited() && ring > 0:
		return m.DryFlow(z) / m.dryDensity(&z.Air, z.Air.Temperature) / ring
	case z.Film.AirSpeed == 0 && z.Film.Section > 0 && z.Air.Limited():
		return m.DryFlow(z) / m.dryDensity(&z.Air, z.Air.Temperature) / z.Film.Section
	}
	return z.Film.AirSpeed
}

// checkFlow tells what is wrong with how much air a zone has.
func (z *Zone) checkFlow(m *Model) error {
	a, given := &z.Air, 0
	for _, one := range [...]bool{a.DryFlow != 0, a.VolumeFlow != 0, a.Blown} {
		if one {
			given++
		}
	}
	switch {
	case a.Leak > 0 && !(a.MeteredAt >= 213.15 && a.MeteredAt <= 623.15):
		return fmt.Errorf("temperature at which the leak is told [K] = %g: allowed is 213.15 to 623.15", a.MeteredAt)
	case given > 1:
		return fmt.Errorf("the flow of the air is given twice: allowed is one of a mass flow, a volume flow and air that its speed blows")
	case a.Blown && (z.Film.Flow != film.Annulus || z.Film.Bore <= 2*m.Radius || z.Film.AirSpeed <= 0):
		return fmt.Errorf("a speed carries air through a bore wider than the strand")
	case !a.Dragged:
		return nil
	case z.Film.Flow != film.Annulus || z.Film.Bore <= 2*m.Radius || z.Length <= 0:
		return fmt.Errorf("air is dragged along through a bore wider than the strand, in a zone with a length")
	case given > 0 || a.Direction != With:
		return fmt.Errorf("air that is dragged along runs with the strand and has no flow given")
	}
	return nil
}

// withOpenBores is the model with bores whose mouths take in air without limit where the strand drags its own along, and whether there is such a bore.
// Vapour that diffuses in through the mouths of a bore is not followed; what it brings lies between the two.
func (m *Model) withOpenBores() (openBores Model, hasBores bool) {
	openBores = *m
	openBores.Path = slices.Clone(m.Path)
	for i := range openBores.Path {
		if air := &openBores.Path[i].Air; air.Dragged {
			*air, hasBores = air.WithoutLimit(), true
		}
	}
	return openBores, hasBores
}

// mouths is the mean content at the nozzle if the bores in which the strand drags its air had air without limit; zero if
// there are none [kg/kg dry].
func (w *March) mouths(m *Model, s Settings) (float64, error) {
	openBores, hasBores := m.withOpenBores()
	if !hasBores {
		return 0, nil
	}
	var r Result
	err := w.Run(&openBores, s, &r)
	return r.Nozzle.Mean, err
}

// betweenMouths is the logarithm of a content between that with the mouths of the bores shut and that with air without limit in them, by the share [-]
// of what could come in through them.
func betweenMouths(shut, open, share float64) float64 { return (1-share)*shut + share*open }
