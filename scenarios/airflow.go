package scenarios

import (
	"math"

	"strandry/diffusion"
	"strandry/materials/humidair"
	"strandry/materials/quantity"
	"strandry/materials/strict"
)

// unlimited is the word for air that the strand cannot change.
const unlimited = "unlimited"

// flow reads how much air a zone has and how it meets the strand. In a bore it is never
// without limit unless the file says so: what is not stated is the stated speed times the ring
// between strand and bore, or else what the strand drags along.
func (r *reading) flow(zone, t section, z *diffusion.Zone, s *Scenario) {
	flow, stated, endless := t.quantityOrWord(unlimited, "flow", quantity.VolumeFlow(), strict.Limits{Min: 1e-9, Max: 1, Unit: "L/min"})
	open := t.has("flow") || !zone.has("bore")
	ring := ringOf(z, s)
	density := func(temperature float64) float64 { // of the dry share [kg/m3]
		return (s.Room.Pressure - z.Air.VapourPressure) / (humidair.DryAirConstant * temperature)
	}
	switch {
	case stated:
		// The volume of the dry share at the room's temperature and pressure.
		z.Air.DryFlow = flow * density(s.Room.Temperature)
		if ring > 0 && z.Film.AirSpeed == 0 {
			z.Film.AirSpeed = z.Air.DryFlow / density(z.Air.Temperature) / ring
			if z.Film.AirSpeed > fastestAir {
				t.fault("flow", "it would rush through the bore at "+quantity.Speed().Format(z.Film.AirSpeed, "m/s", 3), "up to 100 m/s")
			}
		}
	case open:
	case t.has("speed"):
		z.Air.DryFlow = z.Film.AirSpeed * ring * density(z.Air.Temperature)
		r.assume(t.name("flow") + ": the speed through the ring between strand and bore, " +
			quantity.VolumeFlow().Format(z.Air.DryFlow/density(s.Room.Temperature), "L/min", 3))
	default:
		z.Air.Dragged, z.Air.Direction = true, diffusion.With
		r.assume(t.name("flow") + ": what the strand drags along through the bore, with it")
	}
	r.direction(t, z, endless)
}

// direction reads how the air of a zone meets the strand.
func (r *reading) direction(t section, z *diffusion.Zone, endless bool) {
	word, given := t.choice("direction", "with", "against", "mixed")
	limited := z.Air.DryFlow > 0
	switch {
	case given && z.Air.Dragged:
		t.fault("direction", "air that the strand drags along runs with it", "direction together with flow or speed")
	case given && (endless || !limited && !t.has("flow")):
		t.fault("direction", "air without a flow has no direction", "direction together with flow")
	case word == "with":
		z.Air.Direction = diffusion.With
	case word == "against":
		z.Air.Direction = diffusion.Against
	case limited && !given && t.has("flow"):
		r.assume(t.name("direction") + ": mixed")
	case limited && !given:
		z.Air.Direction = diffusion.With
		r.assume(t.name("direction") + ": with")
	}
}

// ringOf is the section between strand and bore [m2], zero where there is none.
func ringOf(z *diffusion.Zone, s *Scenario) float64 {
	return max(0, math.Pi/4*(z.Film.Bore*z.Film.Bore-4*s.Model.Radius*s.Model.Radius))
}
