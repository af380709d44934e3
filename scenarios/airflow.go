package scenarios

import (
	"strandry/diffusion"
	"strandry/materials/humidair"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// unlimited is the word for air that the strand cannot change.
const unlimited = "unlimited"

// flow reads how much air a zone has and how it meets the strand. In a bore it is never
// without limit unless the file says so: what is not stated is the stated speed times the ring
// between strand and bore, or else what the strand drags along.
func (r *reading) flow(zone, t section, z *diffusion.Zone, s *Scenario) {
	flow, stated, word := t.quantityOrWord([]string{unlimited}, "flow", quantity.VolumeFlow(), strict.Limits{Min: 1e-9, Max: 1, Unit: "L/min"})
	open := t.has("flow") || !zone.has("bore")
	switch {
	case stated:
		z.Air.VolumeFlow, z.Air.MeteredAt = flow, s.Room.Temperature
		if speed := s.Model.AirSpeed(z); speed > fastestAir && z.Film.AirSpeed == 0 {
			t.fault("flow", "it would rush through the bore at "+quantity.Speed().Format(speed, "m/s", 3), "up to 100 m/s")
		}
	case open:
	case t.has("speed"):
		z.Air.Blown = true
		room := (s.Room.Pressure - z.Air.VapourPressure) / (humidair.DryAirConstant * s.Room.Temperature) // of the dry share [kg/m3]
		r.assume(t.name("flow") + ": the speed through the ring between strand and bore, " +
			quantity.VolumeFlow().Format(s.Model.DryFlow(z)/room, "L/min", 3))
	default:
		z.Air.Dragged, z.Air.Direction = true, diffusion.With
		r.assume(t.name("flow") + ": what the strand drags along through the bore, with it")
	}
	r.direction(t, z, word == unlimited)
}

// direction reads how the air of a zone meets the strand.
func (r *reading) direction(t section, z *diffusion.Zone, endless bool) {
	word, given := t.choice("direction", "with", "against", "mixed")
	limited := z.Air.VolumeFlow > 0 || z.Air.Blown
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
